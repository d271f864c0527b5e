/**
 * Hooks that tests may hold on to (data-testid). They stay when words and looks change.
 *
 * Shell        nav-jobs nav-live nav-settings nav-about · engine-silent · update-ready · sound-blocked
 * Jobs         start-live · new-job · same-as-last · practice · job-<id> · run-<runId> · open-run-<runId>
 *              resume-<runId> · close-<runId> · storage
 * Start        connect-rig · connect-device · link-state · link-error · use-packer-<id> · use-practice ·
 *              use-job · gauge-only · zero · skip-zero
 * Live         pressure (data-trust: none good stale lost) · pressure-value · pressure-note · ladder ·
 *              settle-ghost · trace · stage-ribbon · stage (data-stage) · stage-next · stage-<code> ·
 *              open-run · end-run · disconnect · no-limit · practice-banner · cure-line · cure-when ·
 *              hold-leak · minutes-in-band · cue · mixed · gauge-value · gauge-send · warm-<place> ·
 *              warm-send-<place> · vent-open · vent-close · rebound · answer-let-down · answer-loss ·
 *              witness-hard · witness-soft · saved
 * Alarms       alarms · no-alarms · alarm-<code> (data-state, data-priority) · acknowledge-<code> ·
 *              acknowledge (all) · shelve-<code> · unshelve-<code>
 * Rig          rig-panel · rig-valve · rig-regulator · rig-vent · rig-couple · rig-speed · rig-fault-<name>
 * Job sheet    job-title · field names as `job-<field>` · to-live
 * Review       review-trace · zoom-in · zoom-out · pan-left · pan-right · whole · events · event-<index>
 * Settings     theme · unit-pressure · unit-temperature · sound-urgent sound-high sound-low · hand-s · close-s
 */
export const TEST_ID = 'data-testid';
