import { renderSVG } from 'uqr';
import { escaped } from './html.ts';

/** Where a phone finds this page, and where it goes afterwards; without `secure` https is not served now. */
export interface Place {
  trust: string;
  secure?: string;
}

interface View {
  boat: string;
  fingerprint: string;
  /** End of the authority, UNIX seconds. */
  until: number;
  names: readonly string[];
  place: Place;
}

/** The page /trust: plain HTML without script, so that any browser shows it. */
export function trustPage({ boat, fingerprint, until, names, place }: View): string {
  const name = escaped(boat);
  const { trust, secure } = place;
  const year = new Date(until * 1000).toISOString().slice(0, 10);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="dark light">
<title>Let this device trust ${name} · hawse</title>
<link rel="stylesheet" href="/trust.css">
</head>
<body>
<main>
<p><a href="/">Back to the watch</a></p>
<h1>Let this device trust ${name}</h1>
<p>Over plain http a browser refuses the pages three things: to keep the screen awake, to open when the boat’s computer is
down, and notifications. Over https it gives them, once this device trusts the boat’s own certificate authority. It takes a
minute, once for each device. Everything else works over plain http as well.</p>
${secure ? '' : '<p class="care"><strong>https is not served now.</strong> See the alerts and the log of the boat’s computer.</p>'}

<h2>Compare first</h2>
<p>This is the fingerprint (SHA-256) of the boat’s root certificate. It must be the same as the one that hawse printed when it
started on the boat’s computer, and as the one that this device shows before it trusts. If it is not, somebody stands between:
do not go on.</p>
<p class="fingerprint">${fingerprint.replaceAll(':', ':<wbr>')}</p>

<h2>iPhone and iPad</h2>
<ol>
<li>In Safari: <a href="/trust/hawse.mobileconfig">download the profile</a> and allow it.</li>
<li>Settings › Profile Downloaded › Install. “Not Verified” is right: nobody ashore vouches for your boat. Look at the
fingerprint under More Details.</li>
<li>Settings › General › About › Certificate Trust Settings: switch “hawse of ${name}” on. Without this step nothing is trusted.</li>
</ol>
<h2>Android</h2>
<ol>
<li><a href="/trust/hawse.crt">Download the certificate</a>.</li>
<li>Settings › Security › Encryption &amp; credentials › Install a certificate › CA certificate › Install anyway, and choose
hawse.crt. Names differ between makers: search the settings for “CA certificate”. The phone needs a screen lock.</li>
<li>Android says from then on that the network may be monitored. It says so of every certificate that was added by hand.</li>
<li>Use Chrome. Firefox trusts such certificates only after a switch in its own hidden settings.</li>
</ol>
<h2>Computer</h2>
<p><a href="/trust/hawse.crt">Download the certificate</a> and import it as an authority for web sites: in Firefox under
Settings › Certificates › View › Authorities, elsewhere in the system’s keychain or certificate manager.</p>

<h2>Then</h2>
${
  secure
    ? `<p>Open <a href="${escaped(secure)}">${escaped(secure)}</a> and put that page on the home screen. If the browser warns of
the certificate, it does not trust it yet: go back, do not click the warning away. A page behind such a warning gets none of
the three things, and Safari refuses it the live figures.</p>
<p>Phones keep settings for each address apart: name the screen and arm it there anew.</p>
${code(secure, 'The secure page')}`
    : ''
}
<h2>This page on another device</h2>
<p><a href="${escaped(trust)}">${escaped(trust)}</a></p>
${code(trust, 'This page')}

<h2>What you risk</h2>
<p>An authority that a device trusts can vouch for web sites. This one is bound: it may speak only for the boat’s own names and
for private network addresses, and the key of its root was forgotten when it was made, so that nothing more can ever be signed
with it. Whoever steals the data folder of the boat’s computer could pose as the boat, and as another device with such a name or
address on a private network, but not as your bank. The binding is enforced by the device; current ones do.</p>
<p>It speaks now for: ${escaped(names.join(', '))}. It ends on ${year}.</p>

<h2>To take it away again</h2>
<ul>
<li>iPhone and iPad: Settings › General › VPN &amp; Device Management › “hawse of ${name}” › Remove Profile.</li>
<li>Android: Settings › Security › Encryption &amp; credentials › User credentials or Trusted credentials › User › “hawse of
${name}” › Remove.</li>
<li>Computer: where it was imported.</li>
</ul>
</main>
</body>
</html>
`;
}

/** Black on white in any palette, since many cameras do not read it otherwise. */
function code(address: string, label: string): string {
  const svg = renderSVG(address, { border: 2 }).replace(
    '<svg ',
    `<svg role="img" aria-label="QR code: ${escaped(address)}" `,
  );
  return `<figure>${svg}<figcaption>${escaped(label)}</figcaption></figure>`;
}
