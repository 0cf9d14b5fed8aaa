export const chromium: string;
export const flags: string[];
