/**
 * Hooks that tests may hold on to (data-testid). They stay when words and looks change.
 *
 * Start guard  start-failed (the program did not start)
 * Shell        nav-jobs nav-live nav-settings nav-about · shell-link · practice-banner · engine-silent · page-fault · left-open ·
 *              alarm-elsewhere · sound-blocked · update-ready · toast
 * Jobs         start-live · practice (connects the rig and goes live) · new-job · same-as-last ·
 *              job-<id> · run-<runId> · open-run-<runId> · resume-open-<runId> (leads to live) ·
 *              close-<runId> then confirm-yes · storage · open-job-file
 * Start        connect-rig · connect-device · connect-other · stop-trying · link-state · link-error · stray-line ·
 *              resume-<runId> · use-job ·
 *              use-job-mixed (in spite of refusals) · use-practice · use-packer-<id> (then packer-diameter and
 *              use-packer where it has several ratings) · gauge-only · zero · skip-zero · zero-refused ·
 *              zero-under-pressure. Choosing a packer, a job or gauge-only opens the run.
 * Live         pressure (data-trust: none good stale lost) · pressure-value · pressure-note · ladder ·
 *              settle-ghost · trace · stage-ribbon · cue · cure-line · cure-when · cure-exotherm · no-limit ·
 *              standing-<code>
 * Stage        stage (data-stage) · stage-next (data-to) · stage-<code> (under 'Other stages') · stage-end ·
 *              stage-doubt with stage-reason and confirm-yes · mixed · gauge-value gauge-send gauge-result ·
 *              warm-<place> warm-send-<place> · question answer-let-down answer-loss ·
 *              witness-place witness-hard witness-soft · rebound vent-open vent-close
 *              rebound-result (data-what) · note-text note-add
 * Facts        hold-leak · minutes-in-band · peak · settle · pot-life · saved · device-guard (data-state) ·
 *              device-silence · to-sheet · disconnect · end-run then confirm-yes
 * Alarms       alarms · no-alarms · alarm-<code> (data-state, data-priority) · acknowledge-<code> ·
 *              acknowledge (all) · shelve-<code> · unshelve-<code>
 * Rig          rig-panel · rig-valve · rig-shut · rig-regulator · rig-vent · rig-couple · rig-speed ·
 *              rig-fault-<name> (under 'Faults to find')
 * Job sheet    sheet-state · job-<path of the field>: job-title job-pipe.innerMm job-packerId … · check-<code> ·
 *              findings refusal-<code> warning-<code> ·
 *              derivations derivation-<code> · apply-setup · save-job-file · to-live
 * Review       review-trace · trace · zoom-in · zoom-out · pan-left · pan-right · whole · events ·
 *              event-<index> (data-event) · check-run checked · remove-run then confirm-yes ·
 *              put-away-cycle put-away-found put-away-by put-away-note put-away put-away-done
 * Record       seal then confirm-yes · sealed · new-key · save-job-file · certificate · save-svg save-png save-data ·
 *              judge-again judged · additions add-addition · review-status review-by review-reason release reject
 * Verify       verify-file · verdict (data-verdict) · findings · signer-name know-signer · keep kept · open-record ·
 *              key key-fingerprint change-key · known-keys known-name known-fingerprint add-known
 * Archive      archive-search · filter-status filter-seal filter-alarms · record-<ref> · overlay align save-overlay
 * Backup       make-backup backup-made cancel-backup · restore-file restore-plan restore-go restored
 * Office       office-choose office-folder office-look office-list office-write office-waiting office-forget
 * Settings     packers resins sensors · settings-<path of the field>: settings-units.pressure … ·
 *              sound-urgent sound-high sound-low · dial-span dial-class dial-u · to-backup to-office
 * Documents    new-<kind> · <kind>-<id> · <kind>-<path of the field>: packer-sizes.minMm
 *              packer-ratings.0.ratedBar … · <kind>-<path of the table>-add · save-document ·
 *              sensor-history drift-zero drift-gauge drift-warm
 *              history-<runId> history-none · packer-history drift-leak
 */
export const TEST_ID = 'data-testid';
