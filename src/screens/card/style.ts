/**
 * The card's own look, in force while it is shown alone: one sheet of A4 or Letter, black on white, the same on the screen. What is read at
 * arm's length is 11 pt and more, orders 14 pt and more.
 */
export const STYLE = `
@page {
  margin: 6mm;
}

.page.tailgate-page {
  max-width: none;
}

.tailgate {
  box-sizing: border-box;
  width: 100%;
  max-width: 204mm;
  margin: 0 auto;
  padding: 4mm;
  background: #fff;
  color: #000;
  box-shadow: 0 0 0 1px var(--rung);
  font-size: 11pt;
  line-height: 1.13;
}

.tailgate :is(p, ul, ol, dl, dd, h1, h2) {
  margin: 0;
  padding: 0;
}

.tailgate :is(ul, .tailgate-stages) {
  list-style: none;
}

.tailgate :is(p, li, dd) {
  overflow-wrap: anywhere;
}

.tailgate .alarm-shape {
  color: #000;
  vertical-align: -0.12em;
}

.tailgate .alarm-shape .cut {
  fill: #fff;
}

.tailgate > header {
  display: flex;
  gap: 4mm;
  align-items: baseline;
  padding-bottom: 0.8mm;
  border-bottom: 0.8mm solid #000;
}

.tailgate h1 {
  font-size: 16pt;
  line-height: 1;
  white-space: nowrap;
}

.tailgate h2 {
  font-size: 11pt;
  line-height: 1.15;
}

/* What is typed may be long: here it names the job and the crew. */
.tailgate-job {
  flex: 1;
}

.tailgate-job,
.tailgate .typed:not(:has(.tailgate-line)) {
  display: -webkit-box;
  overflow: hidden;
  -webkit-box-orient: vertical;
  -webkit-line-clamp: 2;
}

.tailgate-line {
  display: block;
  min-width: 12mm;
  height: 5.2mm;
  border-bottom: 0.3mm solid #000;
}

.tailgate .tailgate-refused {
  margin-top: 0.8mm;
  padding: 0 2mm;
  border: 0.6mm solid #000;
  font-size: 14pt;
  font-weight: 700;
}

.tailgate-pressures,
.tailgate-times {
  display: grid;
  gap: 0 3mm;
  padding-top: 0.6mm;
}

.tailgate-pressures {
  grid-template-columns: repeat(5, 1fr);
}

.tailgate-times {
  grid-template-columns: 4fr 6fr 6fr 5fr;
}

.tailgate-written {
  display: flex;
  flex-wrap: wrap;
  gap: 0 4mm;
}

.tailgate-written p {
  flex: 1;
  display: flex;
  gap: 2mm;
  align-items: flex-end;
  white-space: nowrap;
}

.tailgate-written .tailgate-line {
  flex: 1;
}

.tailgate dd {
  font-size: 14pt;
  font-weight: 700;
  line-height: 1.08;
}

.tailgate .typed {
  font-size: 11pt;
}

.tailgate-stages {
  margin-top: 1mm;
  padding-top: 0.6mm;
  border-top: 0.4mm solid #000;
}

.tailgate-stages li {
  display: grid;
  grid-template-columns: 25mm 1fr;
  gap: 1mm;
}

.tailgate-alarms {
  margin-top: 1mm;
  padding-top: 0.6mm;
  border-top: 0.4mm solid #000;
}

.tailgate-shapes {
  display: flex;
  flex-wrap: wrap;
  gap: 0 4mm;
}

.tailgate-shapes h2 {
  flex: 1;
}

.tailgate-orders {
  columns: 2;
  column-gap: 4mm;
}

.tailgate-orders > li {
  padding: 0.3mm 0;
  break-inside: avoid;
  border-bottom: 0.2mm solid #999;
}

.tailgate-orders strong {
  font-size: 14pt;
  line-height: 1.02;
}

/* Two lines of one order on one: further apart than two words. */
.tailgate-orders strong span {
  display: inline-block;
  margin-right: 0.7em;
}

.tailgate-orders ul > li {
  display: inline;
  margin-right: 0.5em;
}

.tailgate-first {
  white-space: nowrap;
}

.tailgate-dark {
  margin-top: 1.2mm;
  padding: 0.2mm 2mm 0.6mm;
  border: 0.8mm solid #000;
}

.tailgate-dark ol {
  padding-left: 6mm;
  font-size: 14pt;
  font-weight: 700;
  line-height: 1.1;
  list-style: decimal;
}

.tailgate-cautions {
  margin-top: 1mm;
}

.tailgate-cautions :is(h2, ul, li) {
  display: inline;
  margin-right: 0.3em;
}

@media screen and (max-width: 760px) {
  .tailgate {
    padding: 8px;
  }

  .tailgate > header,
  .tailgate-stages li {
    display: block;
  }

  .tailgate-pressures,
  .tailgate-times {
    grid-template-columns: 1fr 1fr;
  }

  .tailgate-written p {
    flex-basis: 100%;
  }

  .tailgate-orders {
    columns: 1;
  }
}

@media print {
  .shell:has(.tailgate-page) > :not(main),
  .shell:has(.tailgate-page) .skip {
    display: none;
  }

  .shell-main:has(.tailgate-page),
  .page.tailgate-page {
    display: block;
    padding: 0;
    margin: 0;
  }

  .tailgate {
    max-width: none;
    padding: 0;
    box-shadow: none;
  }
}
`;
