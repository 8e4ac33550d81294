package check

import (
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/state"
)

// TestOlderSnagKeepsItsID holds that the later line is the mistake: a snag would
// otherwise be forgotten, and the vehicle called ready to be driven.
func TestOlderSnagKeepsItsID(t *testing.T) {
	const older = "-- 2026-04-11.md --\n- [ ] temporary roof-tarp: tarp; dangerous\n- [ ] loom-surcharge: ask\n- [ ] reading-gas: ask\n- [ ] bus-bar: ask\n"
	for later, want := range map[string]string{
		"parts:\n  - roof-tarp: needed new tarp\n  - roof-tarp: ordered": "2026-04-12.md:3:5: error, id-taken: \"roof-tarp\" already names a snag, at 2026-04-11.md:1:17",
		// What is wrong besides is told alone, and the snag is kept all the same.
		"parts:\n  roof-tarp: neded new tarp":                                      "",
		"parts:\n  bus-bar: needed bar":                                            "2026-04-12.md:3:3: error, id-taken: \"bus-bar\" already names a snag",
		"readings:\n  gas: 3 mbar":                                                 "2026-04-12.md:3:3: error, id-taken: \"reading-gas\" already names a snag",
		"parts:\n  - loom: needed loom\ncost: 9.00 loom; for loom; surcharge 2.00": "2026-04-12.md:4:28: error, id-taken: \"loom-surcharge\" already names a snag",
	} {
		example := older + "-- 2026-04-12.md --\n---\n" + later + "\n---\n- [x] roof-tarp: off\n- [ ] again roof-tarp: on\n"
		wantOf(t, "id-taken", example, want)
		b, err := journal.ReadBuild(folder(example), ".")
		if err != nil {
			t.Fatal(err)
		}
		open := 0
		for _, s := range state.At(b, 0, today).Snags {
			if s.Open && s.Source == fact.FromNote {
				open++
			}
		}
		if open != 4 {
			t.Errorf("%s: %d snags are open", later, open)
		}
	}
	// In one note front matter comes first.
	wantOf(t, "id-taken", "---\nparts:\n  roof-tarp: needed new tarp\n---\n- [ ] temporary roof-tarp: tarp\n", "5:17: error, id-taken: \"roof-tarp\" already names a part")
}

// A tick with a mistake may have cleared the snag: that it is opened anew is no second mistake.
func TestOpenedAgainAfterABadTick(t *testing.T) {
	const opened, anew = "- [ ] job arch-seal: seal it\n", "- [ ] job arch-seal: it leaks\n"
	wantOf(t, "opened-twice", opened+"- [x] arch-seal: sealed; mayor\n"+anew, "")
	wantOf(t, "opened-twice", opened+"- [ ] arch-seal: sealed; mayor\n"+anew, "already open")
}
