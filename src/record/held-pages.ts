/** The pages as they go by once: held against the forms that are known, against clocks, and against what the device said. */
import { DeviceClock, WallClock } from './clock-apart.ts';
import { ClockOrder } from './clock-order.ts';
import { DeviceSaid } from './device-said.ts';
import { EntryForms } from './entry-forms.ts';
import type { Finding, Remark } from './findings.ts';
import type { Manifest } from './manifest.ts';
import { MapSaid } from './map-said.ts';
import type { Page } from './page.ts';
import { papersApart } from './papers-apart.ts';
import type { RunVisitor } from './reader.ts';
import type { Addition } from './seal.ts';
import { SetupFollows } from './setup-follows.ts';

/** Is handed every page. */
export class HeldPages implements RunVisitor {
  private readonly forms = new EntryForms();
  private readonly order = new ClockOrder();
  private readonly clock = new DeviceClock();
  private readonly wall = new WallClock();
  private readonly said = new DeviceSaid();
  private readonly byMap = new MapSaid();
  private readonly follows = new SetupFollows();

  page(page: Page): void {
    this.forms.page(page);
    this.order.page(page);
    this.clock.page(page);
    this.wall.page(page);
    // What looks into Setups needs them to be Setups.
    if (!this.shown) return;
    this.said.page(page);
    this.byMap.page(page);
    this.follows.page(page);
  }

  /** Everything in them has a form that this version knows. */
  get shown(): boolean {
    return this.forms.findings.length === 0;
  }

  /**
   * @param whole every page was handed over and is sound
   * @param sameEngine the Setups are of the plan that this program has, too
   */
  findings(whole: boolean, sameEngine: boolean): readonly Finding[] {
    if (!this.shown) return this.forms.findings;
    return [
      ...(whole ? [...this.said.findings(), ...this.byMap.findings()] : []),
      ...(sameEngine ? this.follows.findings : []),
    ];
  }

  remarks(manifest: Manifest, additions: readonly Addition[]): readonly Remark[] {
    return [
      ...this.order.remarks(manifest, additions),
      ...this.clock.remarks(),
      ...this.wall.remarks(),
      ...(this.shown ? [...this.byMap.remarks(), ...this.said.remarks(), ...papersApart(manifest)] : []),
    ];
  }
}
