/** The certificate's own look: black on white paper, the same on a screen. Everything lies under .certificate. */
export const STYLE = `
@page { size: A4; margin: 13mm 14mm 14mm; }
body:has(> main > .certificate) { margin: 0; background: #fff; }
.certificate { box-sizing: border-box; max-width: 190mm; margin: 0 auto; padding: 8px; background: #fff; color: #000; font: 9.4pt/1.32 system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif; }
.certificate * { box-sizing: border-box; }
.certificate h1 { font-size: 17pt; line-height: 1.15; margin: 0 0 1mm; }
.certificate h2 { font-size: 10.6pt; margin: 3.2mm 0 1mm; padding-bottom: .4mm; border-bottom: .3mm solid #000; break-after: avoid; }
.certificate p { margin: 0 0 1mm; overflow-wrap: anywhere; }
.certificate .name { font-size: 12.5pt; font-weight: 600; }
.certificate .small { font-size: 8pt; color: #333; }
.certificate .two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; }
.certificate table { width: 100%; border-collapse: collapse; }
.certificate th, .certificate td { text-align: left; vertical-align: top; padding: .35mm 1.5mm .35mm 0; font-size: inherit; overflow-wrap: break-word; }
.certificate th[scope=row] { width: 42mm; font-weight: 400; color: #444; }
.certificate .two th[scope=row] { width: 23mm; }
.certificate .grid th { font-weight: 600; border-bottom: .2mm solid #888; }
.certificate figure { margin: 0; break-inside: avoid; }
.certificate figure svg { display: block; width: 100%; height: auto; }
.certificate ul { margin: 0; padding-left: 4mm; list-style: disc; columns: 2; column-gap: 7mm; }
.certificate li { break-inside: avoid; margin-bottom: .5mm; overflow-wrap: anywhere; }
.certificate .whole { white-space: nowrap; }
.certificate .keep, .certificate tr { break-inside: avoid; }
.certificate .check { display: grid; grid-template-columns: 1fr 30mm; gap: 5mm; align-items: end; }
.certificate .qr { width: 30mm; height: 30mm; display: block; }
.certificate .mono { font: 8.6pt/1.3 ui-monospace, 'DejaVu Sans Mono', monospace; }
.certificate .signs { display: grid; grid-template-columns: repeat(3, 1fr); gap: 7mm; }
.certificate .rule { height: 12mm; border-bottom: .3mm solid #000; margin-bottom: 1mm; }
@media screen and (max-width: 600px) {
  .certificate .two, .certificate .signs, .certificate .check { grid-template-columns: 1fr; }
  .certificate ul { columns: 1; }
}
@media print { .certificate { padding: 0; max-width: none; } }
`;
