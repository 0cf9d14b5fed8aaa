declare module 'magvar' {
  interface MagneticModel {
    /** Altitude in km above sea level; decimal year. Declination in degrees, east positive; horizontal field in nT. */
    magneticField(
      lat: number,
      lon: number,
      altitudeKm: number,
      decimalYear: number,
    ): { declination: number; inclination: number; x: number; y: number; z: number; h: number; f: number };
  }
  const model: MagneticModel;
  export default model;
}
