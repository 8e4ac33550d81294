package check

import (
	"strings"
	"testing"
)

// What the help says in cases that the checks' own examples do not show. The note is
// the only one of its build; want is a part of what is printed.
var helpCases = []struct{ note, want string }{
	{"- [ ] temporary exhausthanger: hung on wire\n", `since "exhausthanger" has no hyphen and so is no id`},
	{"- [ ] temporary exhausthanger: hung on wire\n", `such as "temporary exhausthanger-1: ", or write "temporary: " alone.`},
	{"- [ ] inspect left rail: behind the bumper\n", `Write "inspect: " or "inspect ID: " at its beginning.`},
	{"---\nstage: body\nparts:\n  - radiator: needed radiator\n  - raditor: fitted\n---\n", `Nearest: "radiator". Write what it is`},
	{"- [ ] temp hose-clip: of wire\n", `no kind of snag called "temp"`},
	{"- [ ] temp hose-clip: of wire\n", `Nearest: "temporary".`},
}

func TestHelp(t *testing.T) {
	for _, c := range helpCases {
		if got := printed(t, proofread(t, folder(c.note))); !strings.Contains(got, c.want) {
			t.Errorf("%s got:\n%s\nwant: %s", c.note, got, c.want)
		}
	}
}
