package check

import (
	"slices"
	"strings"
	"testing"

	"guidecoat/journal/problem"
)

// A line that says `sure` settles its own warnings, and no others, and no errors.
func TestSure(t *testing.T) {
	for text, want := range map[string][]string{ // as severity and check
		"---\ncost: 12.00 hose, private\n---\n":       {"warning unstaged-money", "warning private-unclear"},
		"---\ncost: 12.00 hose, private; sure\n---\n": {"information unstaged-money", "information private-unclear"},
		"---\ncost:\n  - 12.00 hose; stage body; from Del, private; sure\n  - 13.00 hose, private; stage body\n---\n": {"information private-unclear", "warning private-unclear"},
		"---\ncost:\n  - 12.00 hose, private; stage body\n  - 13.00 hose, private; stage body; sure\n---\n":           {"warning private-unclear", "information private-unclear"},
		"---\ncost: 12.00 hose; stage bdoy; sure\n---\n":                                                              {"error unknown-stage"},
		"- [ ] temporary wire on the\n  exhaust; sure\n":                                                              {"information temporary-without-id"},
		"- [ ] temporary wire on the\n  exhaust\n- [ ] look at it; sure\n":                                            {"warning temporary-without-id"},
		"---\ntitle: The beam, private; sure\n---\n# Private\n":                                                       {"information private-unclear", "warning private-unclear"},
		"- [ ] door-leak: look\n- [ ] door-leak: private, he said; sure\n":                                            {"information private-unclear"},
		"---\nstage: body\ntime: 3h in the yard; private; sure\ncost: 4.00 hose; stage body; sure; sure\n---":         {"error repeated-clause"},
	} {
		var got []string
		for _, p := range proofread(t, folder(text+"\n")) {
			if p.Check != "not-portable" {
				got = append(got, p.Severity.String()+" "+p.Check)
			}
			if settled := strings.HasSuffix(p.Message, `, settled by "sure"`); settled && p.Severity != problem.Information {
				t.Errorf("%q: %s", text, p.Message)
			}
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q:\n got %q\nwant %q", text, got, want)
		}
	}
	const garage = "-- garage.md --\n---\ngarage: The yard\ncurrency: GBP\ntools:\n  - 24.00 drill; over 2 builds; on 2026-01-02; sure\n---\n-- one/build.md --\n" + exampleCard
	if found := proofread(t, folder(garage)); slices.ContainsFunc(found, func(p problem.Problem) bool { return p.Severity < problem.Information }) {
		t.Error(printed(t, found))
	}
}
