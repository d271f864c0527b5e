/** The certificate's own look: black on white paper, the same on a screen. Everything lies under .certificate. */
export const STYLE = `
@page { margin: 12mm 14mm; }
body:has(> main > .certificate) { margin: 0; background: #fff; }
.certificate { box-sizing: border-box; max-width: 182mm; margin: 0 auto; padding: 8px; background: #fff; color: #000; font: 9.2pt/1.3 B612, system-ui, 'Noto Sans', 'DejaVu Sans', sans-serif; }
.certificate * { box-sizing: border-box; }
.certificate .leaf + .leaf { break-before: page; margin-top: 8mm; }
.certificate .head { display: flex; justify-content: space-between; align-items: center; gap: 1mm 4mm; margin: 0 0 4mm; font-size: 8.6pt; overflow-wrap: normal; }
.certificate .brand { display: inline-flex; gap: 2mm; align-items: center; font-weight: 700; font-size: 11pt; }
.certificate .firm { display: inline-flex; gap: 2mm; align-items: center; font-weight: 700; overflow-wrap: anywhere; }
.certificate .mark { display: block; width: auto; height: auto; max-width: 36mm; max-height: 10mm; }
.certificate .logo { width: 5mm; height: 5mm; fill: #000; }
.certificate .kind { margin: 0; }
.certificate h1 { font-size: 19pt; line-height: 1.12; margin: 0 0 1mm; overflow-wrap: anywhere; text-wrap: balance; }
.certificate .boxed { margin: 3.5mm 0; padding: 3.5mm 4.5mm; border: .8mm solid #000; }
.certificate .account-line { font-size: 12.5pt; line-height: 1.22; font-weight: 700; }
.certificate ul.weightiest { columns: 1; }
.certificate .four, .certificate .eight { display: grid; margin: 0; }
.certificate .four { grid-template-columns: repeat(4, 1fr); gap: 3mm; padding: 2mm 0; border-top: .8mm solid #000; border-bottom: .3mm solid #000; }
.certificate .four div { display: flex; flex-direction: column; }
.certificate .four dd { font-size: 14pt; font-weight: 700; line-height: 1.15; }
.certificate .eight { grid-template-columns: 1fr 1fr; gap: 0 7mm; margin-top: 2mm; }
.certificate .eight div { display: flex; gap: 3mm; justify-content: space-between; padding: 1mm 0; border-bottom: .2mm solid #888; }
.certificate .eight dd { text-align: right; font-weight: 700; overflow-wrap: anywhere; }
.certificate dd { margin: 0; }
.certificate .foot { margin-top: 3mm; padding-top: 2mm; border-top: .3mm solid #000; }
.certificate .big { font-size: 14pt; border-bottom: 0; margin-top: 0; }
.certificate h2 { font-size: 10.6pt; margin: 3.2mm 0 1mm; padding-bottom: .4mm; border-bottom: .3mm solid #000; break-after: avoid; }
.certificate p { margin: 0 0 1mm; overflow-wrap: anywhere; }
.certificate .small { font-size: 8pt; color: #333; }
.certificate .two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 7mm; }
.certificate table { width: 100%; border-collapse: collapse; table-layout: fixed; }
.certificate th, .certificate td { text-align: left; vertical-align: top; padding: .35mm 1.5mm .35mm 0; font-size: inherit; overflow-wrap: break-word; }
.certificate th[scope=row] { width: 42mm; font-weight: 400; color: #444; }
.certificate .two th[scope=row] { width: 23mm; }
.certificate .grid th { font-weight: 700; border-bottom: .2mm solid #888; }
.certificate .list th[scope=rowgroup] { width: auto; padding-top: 1.2mm; border-bottom: 0; }
.certificate .list th:nth-child(2) { width: 48mm; }
.certificate .list th:nth-child(3) { width: 34mm; }
.certificate .list th:nth-child(4) { width: 14mm; }
.certificate .list td { border-bottom: .2mm solid #ccc; }
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
.certificate .hand { display: block; height: 100%; max-width: 100%; }
.certificate .photos { display: grid; grid-template-columns: 1fr 1fr; gap: 4mm 7mm; }
.certificate .photos img { display: block; width: 100%; height: 60mm; object-fit: contain; object-position: left; }
.certificate .no-photo { height: 60mm; display: grid; place-items: center; border: .3mm dashed #000; margin: 0; }
@media screen and (max-width: 600px) {
  .certificate .two, .certificate .photos, .certificate .signs, .certificate .check, .certificate .eight { grid-template-columns: 1fr; }
  .certificate .four { grid-template-columns: 1fr 1fr; }
  .certificate ul { columns: 1; }
  .certificate .list { table-layout: auto; }
  .certificate .list :is(th, td) { overflow-wrap: anywhere; }
  .certificate .list th[scope=col] { width: auto; }
  .certificate .head { flex-wrap: wrap; }
  .certificate figure { overflow-x: auto; }
  .certificate figure svg { min-width: 620px; }
}
@media print { .certificate { padding: 0; max-width: none; } .certificate .leaf + .leaf { margin-top: 0; } }
`;
