/** Style of an incident report: ink on white, on A4 and Letter alike; every difference is in shape as well, for a printer without colour. */
export const STYLE = `@page{margin:16mm 14mm}
*{box-sizing:border-box}
body{max-width:190mm;margin:0 auto;padding:8mm 4mm;color:#111;background:#fff;font:10.5pt/1.4 "Liberation Sans",Arial,Helvetica,sans-serif;font-variant-numeric:tabular-nums}
@media print{body{max-width:none;padding:0}}
h1{font-size:19pt;line-height:1.15;margin:0 0 2mm}
h2{font-size:13pt;margin:8mm 0 2mm;border-bottom:1.5pt solid #111;break-after:avoid}
p{margin:0 0 2mm}
.lead{font-size:12pt}
.box{border:1.5pt solid #111;padding:2mm 3mm;margin:3mm 0;break-inside:avoid}
.box ul{margin:1mm 0 0;padding-left:5mm}
.simulated{border:3pt double #111;font-weight:700;font-size:13pt;text-align:center;padding:3mm;margin-bottom:4mm}
.small{font-size:9pt;color:#333}
table{width:100%;border-collapse:collapse;font-size:9pt}
thead{display:table-header-group}
tr{break-inside:avoid}
th,td{text-align:left;vertical-align:top;padding:1mm 2mm 1mm 0;border-bottom:.5pt solid #999}
th{border-bottom:1pt solid #111}
td.hash{font:8pt/1.3 "Liberation Mono",Consolas,monospace;overflow-wrap:anywhere}
dl{display:grid;grid-template-columns:max-content 1fr;gap:1mm 5mm;margin:0}
dt{font-weight:700}
dd{margin:0}
figure{margin:0;break-inside:avoid}
svg{display:block;width:100%;height:auto;fill:none;stroke:#111;stroke-width:1.2}
svg.plan{max-width:150mm;max-height:150mm;margin:0 auto}
svg text{fill:#111;stroke:#fff;stroke-width:3px;paint-order:stroke;font-size:14px}
svg .frame{stroke-width:1}
svg .circle{stroke-width:1.6;stroke-dasharray:9 5}
svg .track{stroke:#555;stroke-width:.8}
svg .fix{fill:#111;stroke:none}
svg .doubtful{stroke:#111;stroke-width:1.4}
svg .mark circle{stroke-dasharray:2 3}
svg .mark path{stroke-width:2.4}
svg .number circle{fill:#fff;stroke-width:1.6}
svg .number text{stroke:none;font-size:12px;font-weight:700}
svg .line{stroke-width:1}
svg .value{stroke-width:1.6;stroke-linecap:round;stroke-linejoin:round}
svg .thin{stroke:#555;stroke-width:.9;stroke-linecap:round}
svg .hatch{stroke:#777;stroke-width:2}
svg .dead{fill:url(#dead);stroke:none}
svg .alarm{stroke-width:1.6}
svg .warning{stroke-width:1.2;stroke-dasharray:5 4}
`;
