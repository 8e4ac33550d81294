package check

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"guidecoat/journal/problem"
)

// places are mistakes of every sort that the manual names, each between ⟦ and ⟧,
// where it must be reported: to the column, the end being exclusive.
var places = []struct{ check, text string }{
	// files and front matter
	{"unclosed-front-matter", "⟦---⟧\nstage: body\n\nProse.\n"},
	{"not-a-line", "---\n⟦beam out⟧\n---\n"},
	{"not-a-line", "---\nstage: body\n  ⟦below: it⟧\n---\n"},
	{"not-a-line", "---\n  ⟦- above any key⟧\n---\n"},
	{"repeated-key", "---\nstage: body\n⟦stage⟧: body\n---\n"},
	{"repeated-name", "---\nchecks:\n  alignment: done\n  ⟦alignment⟧: passed\n---\n"},
	{"tab-indentation", "---\nstage: body\ntime:\n  - 2h\n ⟦\t⟧- 3h\n---\n"},
	{"empty-entry", "---\n⟦title⟧:\n---\n"},
	{"empty-entry", "---\nstage: body\ntime:\n  ⟦-⟧\n  - 2h\n---\n"},
	{"empty-entry", "---\nchecks:\n  ⟦alignment⟧:\n---\n"},
	{"unknown-key", "---\n⟦stages⟧: body\n---\n"},
	{"wrong-shape", "---\nstage:\n  - ⟦body⟧\n---\n"},
	{"wrong-shape", "---\nstage: body\ntime:\n  ⟦2h: beam⟧\n---\n"},
	{"date-differs", "---\ndate: ⟦2026-04-12⟧\n---\n"},
	{"bad-date", "---\ndate: 2026-⟦13⟧-01\n---\n"},
	{"bad-date", "---\ndate: 2026-04-⟦31⟧\n---\n"},
	{"bad-date", "---\ndate: ⟦next Friday⟧\n---\n"},
	{"unknown-stage", "---\nstage: ⟦Body⟧\n---\n"},
	{"unknown-stage", "---\ntime: 2h beam; stage ⟦rear axel⟧; hands 2\n---\n"},
	{"unknown-stage", "---\nremaining:\n  ⟦rear axel⟧: 120\n---\n"},
	{"unknown-stage", "- [ ] paint it; stage ⟦paint⟧\n"},
	{"bad-yes-no", "---\nprivate: ⟦Yes⟧\n---\n"},
	// the grammar of lines
	{"unknown-clause", "---\nstage: body\ntime: 2h beam;  ⟦hand⟧ 2\n---\n"},
	{"unknown-clause", "---\nstage: body\ncost: 12.00 seals; ⟦plus vatt⟧\n---\n"},
	{"repeated-clause", "---\nstage: body\ntime: 2h beam; hands 2; ⟦hands⟧ 3\n---\n"},
	{"repeated-clause", "- [ ] paint it; minor; ⟦major⟧\n"},
	{"clause-value", "---\nstage: body\ntime: 2h beam; private ⟦please⟧\n---\n"},
	{"clause-value", "---\nstage: body\ncost: 12.00 seals; ⟦from⟧\n---\n"},
	{"extra-words", "---\nstage: body\ncost: 12.00 seals; as parts ⟦of it⟧\n---\n"},
	// values
	{"bad-amount", "---\nstage: body\ncost: ⟦12,50⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: ⟦-12.50⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: ⟦0⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: ⟦1.999⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: ⟦1e3⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: 2 x £⟦1234567890123⟧ seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncost: ⟦$⟧5.00 seals\n---\n"},
	{"bad-amount", "---\nstage: body\ncredit: ⟦old⟧ seals\n---\n"},
	{"no-rate", "---\nstage: body\ncost: 12.00 ⟦ALL⟧ the seals\n---\n"},
	{"no-rate", "---\nstage: body\ncost: ⟦SEK⟧ 240 seals\n---\n"},
	{"own-rate", "---\nstage: body\ncost: 12.00 seals; ⟦rate 0.86⟧\n---\n"},
	{"bad-number", "---\nstage: body\ncost: 12.00 EUR seals; rate ⟦0⟧\n---\n"},
	{"bad-number", "---\nstage: body\ncost: 12.00 seals; share ⟦110%⟧\n---\n"},
	{"bad-number", "---\nstage: body\ntime: 2h beam; hands ⟦10⟧\n---\n"},
	{"works-out-to-zero", "---\nstage: body\ncost: ⟦0.1 x 0.04⟧ seals\n---\n"},
	{"bad-duration", "---\nstage: body\ntime: ⟦25h⟧ beam\n---\n"},
	{"bad-duration", "---\nstage: body\ntime: ⟦19:30-19:30⟧ beam\n---\n"},
	{"bad-distance", "---\nodometer: ⟦-5 mi⟧\n---\n"},
	{"bad-measurement", "---\nreadings:\n  disc-left: 8.7 ⟦mmm⟧\n---\n"},
	{"bad-measurement", "---\nreadings:\n  disc-left: 8.7 mm; min ⟦8.0 bar⟧\n---\n"},
	{"bad-estimate", "---\nremaining:\n  body: 10 30 ⟦20⟧\n---\n"},
	{"bad-estimate", "---\nstage: body\nparts:\n  wing: needed wing; estimate ⟦10 20⟧\n---\n"},
	{"bad-id", "---\nstage: body\nparts:\n  ⟦Left wing⟧: needed wing\n---\n"},
	{"unknown-category", "---\nstage: body\ncost: 12.00 seals; as ⟦paints⟧\n---\n"},
	{"unknown-category", "---\nstage: body\ncredit: 12.00 seals; as ⟦scraps⟧\n---\n"},
	{"unknown-state", "---\nstage: body\nparts:\n  wing: ⟦in⟧ wing\n---\n"},
	{"unknown-system", "---\nstage: body\nparts:\n  wing: needed wing; system ⟦bodies⟧\n---\n"},
	{"unknown-result", "---\nchecks:\n  alignment: ⟦fine⟧ by the machine\n---\n"},
	// money and parts
	{"unstaged-money", "---\ncost: ⟦12.00⟧ seals\n---\n"},
	{"unknown-part", "---\nstage: body\ncost: 12.00 seals; for ⟦wing⟧\n---\n"},
	{"undescribed-part", "---\nstage: body\nparts:\n  ⟦wing⟧: needed\n---\n"},
	{"part-backwards", "---\nstage: body\nparts:\n  - wing: arrived wing\n  - wing: ⟦needed⟧\n---\n"},
	{"surcharge-too-large", "---\nstage: body\nparts:\n  wing: needed wing\ncost: 12.00 wing; for wing; ⟦surcharge 13⟧\n---\n"},
	{"surcharge-needs-for", "---\nstage: body\ncost: 12.00 wing; ⟦surcharge 5⟧\n---\n"},
	{"surcharge-needs-for", "---\nstage: body\ncredit: 12.00 wing; ⟦as surcharge⟧\n---\n"},
	{"fitted-unpaid", "---\nstage: body\nparts:\n  wing: ⟦fitted⟧ wing\n---\n"},
	{"used-safety-part", "---\nstage: rear axle\nparts:\n  hub: needed hub; number 12; ⟦used⟧\n---\n"},
	// snags
	{"near-kind", "- [ ] ⟦jop⟧ arch-seal: seal it\n"},
	{"near-kind", "Prose.\n\n* [ ] ⟦tempory⟧: hung on wire\n"},
	{"bad-id", "- [ ] job ⟦Arch-Seal⟧: seal it\n"},
	{"unknown-snag", "- [x] ⟦arch-seal⟧: sealed\n"},
	{"unknown-waits-for", "- [ ] job arch-seal: seal\n  it; minor; waits for\n  ⟦wing⟧\n"},
	{"opened-twice", "- [ ] job arch-seal: seal it\n- [ ] again ⟦arch-seal⟧: seal it\n"},
	{"disclose-not-minor", "- [ ] temporary arch-seal: seal it; ⟦disclose⟧\n"},
	{"temporary-without-id", "- [ ] ⟦Temporary: hung on wire⟧\n"},
	{"unknown-clause", "- [ ] paint it; ⟦soon⟧\n"},
	{"bad-date", "- [ ] paint it; due ⟦Friday⟧\n"},
	// scans
	{"bad-scan", "```scan ⟦ABS unit⟧\nno faults\n```\n"},
	{"bad-code", "```scan abs\nC0035 wheel speed\n⟦C4035⟧ wheel speed\n```\n"},
	// columns count code points; a byte order mark and CRLF count for nothing
	{"bad-amount", "\ufeff---\r\nstage: body\r\ncost:\r\n  - 2⟦h\u00e9\u00e9:⟧ x\r\n---\r\n"},
	{"unknown-clause", "\ufeff---\r\nstage: body\r\ncost: 12.00 pi\u00e8ces d\u00e9tach\u00e9es; ⟦h\u00e9⟧\r\n---\r\n"},
	{"bad-yes-no", "\ufeff---\r\nprivate:  ⟦\u00e9t\u00e9⟧  \r\n---\r\n"},
	{"unknown-clause", "\ufeff- [ ] \U0001f527 m\u00e5la h\u00f6ger d\u00f6rr; ⟦n\u00e5gon⟧ g\u00e5ng\r\n"},
	{"bad-code", "\ufeffM\u00e5la.\r\n\r\n```scan abs\r\n⟦X\u00e9⟧ fel\r\n```\r\n"},
	{"private-words", "---\nstage: body\ncost: 9.00 f\u00e4rg; from H\u00f6gs F\u00e4rg\n---\nK\u00f6pte hos ⟦H\u00f6gs F\u00e4rg⟧.\n"},
	{"missing-file", "H\u00f6ger: ⟦![d\u00f6rr](d%C3%B6rr.jpg)⟧ och v\u00e4nster.\n"},
}

// unmarked takes the marks out of a text and returns what was printed for them.
func unmarked(t *testing.T, text string) (plain, place string) {
	t.Helper()
	before, rest, opened := strings.Cut(text, "⟦")
	inside, after, closed := strings.Cut(rest, "⟧")
	if !opened || !closed {
		t.Fatalf("%q is not marked", text)
	}
	at := func(s string) (line, column int) {
		s = strings.TrimPrefix(s, "\ufeff")
		line = strings.Count(s, "\n") + 1
		return line, utf8.RuneCountInString(s[strings.LastIndexByte(s, '\n')+1:]) + 1
	}
	line, column := at(before)
	endLine, endColumn := at(before + inside)
	return before + inside + after, fmt.Sprintf("%d:%d-%d:%d", line, column, endLine, endColumn)
}

func TestPlaces(t *testing.T) {
	for _, test := range places {
		plain, want := unmarked(t, test.text)
		// The bytes are given as they are: an archive would change line endings.
		fsys := fstest.MapFS{"build.md": {Data: []byte(exampleCard)}, exampleNote: {Data: []byte(plain)}}
		got := []string{}
		for _, p := range proofread(t, fsys) {
			if p.Severity == problem.Information {
				continue
			}
			wording(t, p)
			b, e := p.Span.Begin(), p.Span.Finish()
			got = append(got, fmt.Sprintf("%s %d:%d-%d:%d", p.Check, b.Line, b.Column, e.Line, e.Column))
		}
		if want := test.check + " " + want; len(got) != 1 || got[0] != want {
			t.Errorf("%s\n got %q\nwant %q", test.text, got, want)
		}
	}
}
