package check

import "testing"

// A check that only ever failed is outstanding too, so a slip in its name is told;
// names meant to be told apart are not.
func TestNearFailedCheck(t *testing.T) {
	session := func(day, check string) string {
		return "-- 2026-04-" + day + ".md --\n---\nchecks:\n  " + check + "\n---\n"
	}
	oneMessage(t, []root{
		{"near one that nothing asks for", session("11", "fuse-check: done"), ""},
		{"near one that work asks for", "---\nstage: body\nparts:\n  silencer: fitted silencer; free; system exhaust\n---\n" + session("12", "fuse-check: done"), "near-check-name"},
		{"apart in a short word", session("11", "yearly-test: failed worn bush") + session("12", "yearly-tset: passed"), ""},
		{"a slip", session("11", "roadworthiness: failed worn bush") + session("12", "roadworthyness: passed"), "near-check-name"},
		{"the same name", session("11", "roadworthiness: failed") + session("12", "roadworthiness: passed"), ""},
		{"numbered", session("11", "emissions-1: failed") + session("12", "emissions-2: failed"), ""},
		{"a slip in a long word", session("11", "allignment: passed"), "near-check-name"},
		{"a fastener", fastened("arm-pich"), "near-check-name"},
		{"a fastener, as the card has it", fastened("arm-pinch"), ""},
		{"a fastener that the card does not list", fastened("hub-nut"), ""},
		{"passed, so nothing hangs on it", session("11", "roadworthiness: passed") + session("12", "roadworthyness: passed"), ""},
	})
}

// fastened is a build whose card lists a fastener, and a note that tightens one.
func fastened(id string) string {
	return "-- build.md --\n---\nbuild: Van\ncurrency: GBP\nfasteners:\n  arm-pinch: 60 Nm; of arm\n---\n-- 2026-04-11.md --\n---\nparts:\n  arm: fitted lower arm; free; system body\nfasteners:\n  " + id + ": 60 Nm\n---\n"
}
