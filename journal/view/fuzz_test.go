package view

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal/state"
	"guidecoat/journal/trial"
)

// FuzzView adds a note and a page of any content to a build with a secret in every
// field: no audience sees more than its row of the table, whatever else is written.
func FuzzView(f *testing.F) {
	everyone := everyAudience()
	for i := range everyone {
		f.Add(uint8(i), "---\nstage: axle\nparts:\n  hub: ordered; from x\ncost:\n  - 1.00 x; for hub\n---\n- [ ] job a-b: c; waits for hub\n", "[hub](#hub) <!-- x -->\n")
		// What is secret is named, in every place that takes an id.
		f.Add(uint8(i), "---\nstage: axle\nparts:\n  hidden-part: fitted x\n  mixed: returned x\n  session-part: broken\ncost:\n  - 1.00 x; for hidden-part\nchecks:\n  b-check: done\n  s-check: done\n"+
			"readings:\n  b-reading: 5 mm x\n---\n- [x] hidden-snag: x\n- [ ] again said-snag\n- [ ] session-snag: x; waits for hidden-part; waits for hidden-snag\n\n```scan session-unit\nno faults\n```\n", "[a](#hidden-snag) [b](2026-06-08.md)\n")
	}
	words := slices.DeleteFunc(slices.Clone(secrets), func(s secret) bool { return !strings.ContainsAny(s.text, "-abcdefghijklmnopqrstuvwxyz") })
	f.Fuzz(func(t *testing.T, who uint8, sessionText, pageText string) {
		a := everyone[int(who)%len(everyone)]
		fsys := secretBuild(a.public)
		fsys["2026-07-01.md"] = &fstest.MapFile{Data: []byte(sessionText)}
		fsys["other.md"] = &fstest.MapFile{Data: []byte("---\npage: Other\n---\n" + pageText)}
		v := Of(state.At(trial.CompileFS(t, fsys, "."), 0, trial.Today), a.to)
		v.Progress()
		v.Series()
		seen := strings.Join(everythingIn(v), "\n")
		for _, s := range words {
			// What the builder writes again for all to see is no secret any more.
			if !s.seen(a) && strings.Contains(seen, s.text) && !strings.Contains(sessionText+pageText, s.text) {
				t.Errorf("%s: the view holds %q", a.name, s.text)
			}
		}
	})
}
