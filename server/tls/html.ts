const SIGNS: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text that may stand in HTML or XML, also inside a quoted attribute. */
export const escaped = (text: string): string => text.replace(/[&<>"']/g, (sign) => SIGNS[sign]!);
