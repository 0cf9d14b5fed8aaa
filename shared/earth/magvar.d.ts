declare module 'magvar' {
  interface MagneticModel {
    /** Declination in degrees, east positive; altitude in km above WGS-84; decimal year. */
    magvar(lat: number, lon: number, altitudeKm: number, decimalYear: number): number;
  }
  const model: MagneticModel;
  export default model;
}
