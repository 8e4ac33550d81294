package note

import (
	"slices"
	"strings"
	"testing"
)

// Front matter that begins wrongly is reported where it begins, and none of the
// note is read.
func TestMisplacedFrontMatter(t *testing.T) {
	const two = "date: 2026-04-11\nstage: rear axle\n"
	for _, c := range []struct{ data, fault, why string }{
		{"\n---\n" + two + "---\n", "2:1-2:4 |---|", "empty lines"},
		{"  \n\n---\ndate: 2026-04-11\n---\n", "3:1-3:4 |---|", "empty lines"},
		{"--\ndate: 2026-04-11\n--\n", "1:1-1:3 |--|", "does not open"},
		{"----\ndate: 2026-04-11\n----\n", "1:1-1:5 |----|", "does not open"},
		{"–––\ndate: 2026-04-11\n---\n", "1:1-1:4 |–––|", "does not open"},
		{"—\ndate: 2026-04-11\n—\n", "1:1-1:2 |—|", "does not open"},
		{"—-\r\ndate: 2026-04-11\r\n—-\r\n", "1:1-1:3 |—-|", "does not open"},
		{"- - -\ndate: 2026-04-11\n- - -\n", "1:1-1:6 |- - -|", "does not open"},
		{"***\n" + two + "***\nAll day.\n", "1:1-1:4 |***|", "does not open"},
		{"+++\ndate: 2026-04-11\n+++\n", "1:1-1:4 |+++|", "does not open"},
		{" ---\ndate: 2026-04-11\n---\n", "1:2-1:5 |---|", "does not open"},
		{"--- date\ndate: 2026-04-11\n---\n", "1:1-1:9 |--- date|", "does not open"},
		{"----\n" + two + "\nAll day, and never closed.\n", "1:1-1:5 |----|", "does not open"},
		{"# Beam out\n---\ndate: 2026-04-11\n---\n", "2:1-2:4 |---|", "words"},
		{"All day.\n\n---\n# the day\ncost:\n  - 12.00 hose\n---\n", "3:1-3:4 |---|", "words"},
		{"<!-- a -->\n---\nbuild: Halden\ncurrency: GBP\n---\n", "2:1-2:4 |---|", "words"},
		{two + "\nAll day.\n", "1:1-1:17 |date: 2026-04-11|", "no \"---\""},
		{"\n" + two, "2:1-2:17 |date: 2026-04-11|", "no \"---\""},
		{"Date: 2026-04-11\nStage: rear axle\n", "1:1-1:17 |Date: 2026-04-11|", "no \"---\""},
		{"date: 2026-04-11\n---\n# Beam out\n", "1:1-1:17 |date: 2026-04-11|", "no \"---\""},
		{"cost:\n  - 12.00 hose\n", "1:1-1:6 |cost:|", "no \"---\""},
		{"garage: North\ntools:\n", "1:1-1:14 |garage: North|", "no \"---\""},
		{"author: me\npage: How it was painted\nprivate: yes\n", "1:1-1:11 |author: me|", "no \"---\""},
		{"```yaml\n" + two + "```\n", "1:1-1:8 |```yaml|", "does not open"},
		{"cost: 12.00 hose\n\nAll day.\n", "1:1-1:17 |cost: 12.00 hose|", "no \"---\""},
		{"private: yes\nAll day.\n", "1:1-1:13 |private: yes|", "no \"---\""},
		{"<!-- a -->\n" + two, "2:1-2:17 |date: 2026-04-11|", "no \"---\""},
		{"# Beam out\n" + two, "2:1-2:17 |date: 2026-04-11|", "no \"---\""},
	} {
		n := readNote(Session, c.data)
		wantFaults(t, c.data, n, "misplaced-front-matter "+c.fault)
		if !n.Unread || n.Lost != 1 || n.Doc() != nil || len(n.Lines) > 0 {
			t.Errorf("%q: unread %t, %d lost, %d lines", c.data, n.Unread, n.Lost, len(n.Lines))
		}
		if len(n.Faults) == 1 && !strings.Contains(n.Faults[0].Why, c.why) {
			t.Errorf("%q: %s, want %s", c.data, n.Faults[0].Why, c.why)
		}
	}
}

// Words that only look a little like front matter are words.
func TestWordsAreNoFrontMatter(t *testing.T) {
	for _, data := range []string{
		"",
		"# Beam out\n",
		"Time: late\n",
		"time: late\n",
		"All day.\n\nTime: late\nCost: too much\n",
		"All day.\n\ntime: late, so we stopped.\n",
		"All day.\n\n---\n\nTime: late\n\n---\n",
		"All day.\n\n---\nNote: it was late\n---\n",
		"All day.\n***\ntime: late\n***\n",
		"All day.\n\n---\n\ntime: late. Then home.\nThe end.\n---\n",
		"---- \nNote: late\n----\n",
		"<!--\n" + "date: 2026-04-11\nstage: rear axle\n-->\nAll day.\n",
		"All day.\n\n```yaml\n" + "date: 2026-04-11\nstage: rear axle\n```\n",
		"cost: too much\n\nAll day.\n",
		"All day.\ncost: 12.00 hose\n",
		"stage: rear axle\n\nAll day.\n",
		"- time: late\n- cost: much\n",
		"```\n---\n" + "date: 2026-04-11\n---\n```\n",
		"How a note begins:\n\n    ---\n    date: 2026-04-11\n    ---\n",
		"| a | b |\n|---|---|\n| date: x | cost: y |\n",
		"---\n---\ndate: 2026-04-11\nstage: rear axle\n",
		strings.Repeat("All day.\n", beginning) + "---\ndate: 2026-04-11\n---\n",
	} {
		n := readNote(Session, data)
		if got := faultsOf(n); slices.ContainsFunc(got, func(s string) bool { return strings.HasPrefix(s, "misplaced") }) || n.Doc() == nil {
			t.Errorf("%q: %q", data, got)
		}
	}
}

// A key with its list below the front matter is reported, and the rest is read.
func TestStrayKeys(t *testing.T) {
	const front = "---\nstage: rear axle\n---\n"
	for _, c := range []struct{ body, fault string }{
		{"cost:\n- 12.50 tape\n", "4:1-4:6 |cost:|"},
		{"All day.\r\n\r\ncost: \r\n  - 12.50 tape\r\n", "6:1-6:6 |cost:|"},
		{"All day.\ntime:\n- 3h beam\n", "5:1-5:6 |time:|"},
		{"parts:\n  wing-left: needed wing\n", "4:1-4:7 |parts:|"},
		{"cost:\n\n- 12.50 tape\n", ""},
		{"Cost:\n- 12.50 tape\n", ""},
		{"parts:\n- [ ] find the wing\n", ""},
		{"title:\n- All day\n", ""},
		{"stages:\n- All day\n", ""},
		{"time:\n  late\n", ""},
		{"cost:\n", ""},
		{"cost:", ""},
		{"```\ncost:\n- 12.50 tape\n```\n", ""},
		{"    cost:\n    - 12.50 tape\n", ""},
		{"> cost:\n> - 12.50 tape\n", ""},
	} {
		n := readNote(Session, front+c.body)
		if c.fault == "" {
			wantFaults(t, c.body, n)
			continue
		}
		wantFaults(t, c.body, n, "misplaced-front-matter "+c.fault)
		if n.Unread || n.Lost != 1 || len(n.Lines) != 1 {
			t.Errorf("%q: unread %t, %d lost, %d lines", c.body, n.Unread, n.Lost, len(n.Lines))
		}
	}
}
