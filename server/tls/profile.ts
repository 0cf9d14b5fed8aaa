import { escaped } from './html.ts';

/** A configuration profile for iOS and macOS that holds the root and nothing else. Unsigned: who would vouch for it? */
export function profileOf(boat: string, der: Buffer, fingerprint: string): string {
  const name = escaped(`hawse of ${boat}`);
  return `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd">
<plist version="1.0"><dict>
<key>PayloadType</key><string>Configuration</string>
<key>PayloadVersion</key><integer>1</integer>
<key>PayloadIdentifier</key><string>local.hawse.${idOf(fingerprint, 0)}</string>
<key>PayloadUUID</key><string>${uuidOf(fingerprint, 0)}</string>
<key>PayloadDisplayName</key><string>${name}</string>
<key>PayloadDescription</key><string>Lets this device trust the pages of this boat’s own computer.</string>
<key>PayloadContent</key><array><dict>
<key>PayloadType</key><string>com.apple.security.root</string>
<key>PayloadVersion</key><integer>1</integer>
<key>PayloadIdentifier</key><string>local.hawse.${idOf(fingerprint, 0)}.root</string>
<key>PayloadUUID</key><string>${uuidOf(fingerprint, 32)}</string>
<key>PayloadDisplayName</key><string>${name}</string>
<key>PayloadCertificateFileName</key><string>hawse.crt</string>
<key>PayloadContent</key><data>${der.toString('base64')}</data>
</dict></array>
</dict></plist>
`;
}

const digits = (fingerprint: string): string => fingerprint.replaceAll(':', '').toUpperCase();
const idOf = (fingerprint: string, from: number): string => digits(fingerprint).slice(from, from + 12);

/** The same for the same root, so that a second installation replaces the first. Version and variant as RFC 9562 asks of its own kind 8. */
function uuidOf(fingerprint: string, from: number): string {
  const d = digits(fingerprint).slice(from, from + 32);
  return `${d.slice(0, 8)}-${d.slice(8, 12)}-8${d.slice(13, 16)}-A${d.slice(17, 20)}-${d.slice(20)}`;
}
