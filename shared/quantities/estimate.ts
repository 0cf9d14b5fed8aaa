/** A value that is not known exactly: `sigma` is its standard deviation in the same unit. */
export interface Estimate {
  value: number;
  sigma: number;
}

/** A value with its age and where it came from; `at` is UNIX seconds, `age` seconds at the time of the view. */
export interface Known<T> {
  value: T;
  at: number;
  age: number;
  source: string;
}

/** A point on the WGS-84 ellipsoid, degrees; north and east positive; −90..90, −180..180. */
export interface LatLon {
  lat: number;
  lon: number;
}
