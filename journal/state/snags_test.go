package state

import (
	"fmt"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/trial"
)

// bodies makes sessions of those bodies, from 1 April on.
func bodies(list ...string) string {
	var b strings.Builder
	for i, body := range list {
		b.WriteString(trial.Session(fmt.Sprintf("2026-04-%02d.md", i+1), "", body))
	}
	return b.String()
}

// Every form of the manual's section "Snags", over sessions of 1, 2, … April.
func TestSnags(t *testing.T) {
	for _, c := range []struct {
		name   string
		bodies []string
		want   []string
		faults []string // of files without "2026-04-" and ".md"
	}{
		{name: "opens", bodies: []string{"- [ ] temporary exhaust-hanger: on wire\n- [ ] job seal-one: seal it\n- [ ] inspect seal-two: look\n- [ ] decide seal-three: or leave\n- [ ] recheck seal-four: leaks\n- [ ] sweep the floor\n"},
			want: []string{"exhaust-hanger temporary open major 2026-04-01.. |on wire|", "seal-four recheck open minor 2026-04-01.. |leaks|", "seal-one job open minor 2026-04-01.. |seal it|",
				"seal-three decide open minor 2026-04-01.. |or leave|", "seal-two inspect open minor 2026-04-01.. |look|", " job open minor 2026-04-01.. |sweep the floor|"}},
		{name: "an id alone opens a job", bodies: []string{"- [ ] tow-socket: dead\n"}, want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "clears in this session", bodies: []string{"- [ ] job tow-socket: dead\n- [x] tow-socket: rewired\n"}, want: []string{"tow-socket job cleared minor 2026-04-01..2026-04-01 |dead|"}},
		{name: "clears in a later one", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] tow-socket: rewired\n"}, want: []string{"tow-socket job cleared minor 2026-04-01..2026-04-02 |dead|"}},
		{name: "clears without a word", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] tow-socket\n"}, want: []string{"tow-socket job cleared minor 2026-04-01..2026-04-02 |dead|"}},
		{name: "a remark", bodies: []string{"- [ ] job tow-socket: dead\n", "- [ ] tow-socket: still dead; major\n"}, want: []string{"tow-socket job open major 2026-04-01.. |dead|"}},
		{name: "again", bodies: []string{"- [ ] temporary tow-socket: dead\n", "- [x] tow-socket: rewired\n", "- [ ] again tow-socket: dead once more\n"},
			want: []string{"tow-socket temporary open major 2026-04-03.. |dead once more|"}},
		{name: "again without words", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] tow-socket: rewired\n", "- [ ] again tow-socket:\n"}, want: []string{"tow-socket job open minor 2026-04-03.. |dead|"}},
		{name: "opened and cleared", bodies: []string{"- [x] temporary tow-socket: bridged and rewired\n"}, want: []string{"tow-socket temporary cleared major 2026-04-01..2026-04-01 |bridged and rewired|"}},
		{name: "plain words, ticked", bodies: []string{"- [x] sweep the floor\n"}, want: []string{" job cleared minor 2026-04-01..? |sweep the floor|"}},
		{name: "a kind without an id", bodies: []string{"- [ ] inspect: look at the sump\n- [x] decide: it stays\n"},
			want: []string{" inspect open minor 2026-04-01.. |look at the sump|", " decide cleared minor 2026-04-01..? |it stays|"}},
		{name: "two with the same words are two", bodies: []string{"- [ ] wash it\n", "- [ ] wash it\n"}, want: []string{" job open minor 2026-04-01.. |wash it|", " job open minor 2026-04-02.. |wash it|"}},
		{name: "a tick in the words of the opening", bodies: []string{"- [ ] call the insurer\n", "- [x] Call the insurer.\n"}, want: []string{" job cleared minor 2026-04-01..2026-04-02 |call the insurer|"}},
		{name: "a tick with more words", bodies: []string{"- [ ] temp wire on the exhaust\n", "- [x] wire on the exhaust off, new rubber\n"}, want: []string{" temporary cleared major 2026-04-01..2026-04-02 |wire on the exhaust|"}, faults: []string{"temporary-without-id 01:4:7 |temp wire on the exhaust|"}},
		{name: "a tick with fewer words", bodies: []string{"- [ ] buy masking tape, green\n", "- [x] buy masking\n"}, want: []string{" job cleared minor 2026-04-01..2026-04-02 |buy masking tape, green|"}},
		{name: "a tick of one word", bodies: []string{"- [ ] tape\n- [ ] tape the sill\n", "- [x] tape: done\n"}, want: []string{" job cleared minor 2026-04-01..2026-04-02 |tape|", " job open minor 2026-04-01.. |tape the sill|"}},
		{name: "a word more than one alone", bodies: []string{"- [ ] tape\n", "- [x] tape bought\n"}, want: []string{" job open minor 2026-04-01.. |tape|", " job cleared minor 2026-04-02..? |tape bought|"}, faults: []string{"tick-without-id 02:4:7 |tape bought|"}},
		{name: "words are compared whole", bodies: []string{"- [ ] wash car\n", "- [x] wash carpet\n"}, want: []string{" job open minor 2026-04-01.. |wash car|", " job cleared minor 2026-04-02..? |wash carpet|"}, faults: []string{"tick-without-id 02:4:7 |wash carpet|"}},
		{name: "before a colon, kinds aside", bodies: []string{"- [ ] decide carpet, rear: dry or renew\n", "- [x] Carpet (rear): renewed\n"}, want: []string{" decide cleared minor 2026-04-01..2026-04-02 |carpet, rear: dry or renew|"}},
		{name: "of several the longest", bodies: []string{"- [ ] seal the door\n- [ ] seal the door, left rear\n- [ ] seal the\n", "- [x] seal the door, left rear, twice\n", "- [x] seal the door\n"},
			want: []string{" job cleared minor 2026-04-01..2026-04-03 |seal the door|", " job cleared minor 2026-04-01..2026-04-02 |seal the door, left rear|", " job open minor 2026-04-01.. |seal the|"}},
		{name: "of several that go on the longest", bodies: []string{"- [ ] seal the door\n- [ ] seal the door, left\n- [ ] seal the door, left rear\n", "- [x] seal the\n"},
			want: []string{" job open minor 2026-04-01.. |seal the door|", " job open minor 2026-04-01.. |seal the door, left|", " job cleared minor 2026-04-01..2026-04-02 |seal the door, left rear|"}},
		{name: "a tick clears one of two, the older", bodies: []string{"- [ ] wash it\n", "- [ ] wash it\n", "- [x] wash it\n"}, want: []string{" job cleared minor 2026-04-01..2026-04-03 |wash it|", " job open minor 2026-04-02.. |wash it|"}},
		{name: "ticked above the opening", bodies: []string{"- [x] wash it\n", "- [ ] wash it\n"}, want: []string{" job cleared minor 2026-04-01..? |wash it|", " job open minor 2026-04-02.. |wash it|"}},
		{name: "a tick that says it was opened today", bodies: []string{"- [ ] wash it\n", "- [x] job swept up\n"}, want: []string{" job open minor 2026-04-01.. |wash it|", " job cleared minor 2026-04-02..? |swept up|"}},
		{name: "a chore while nothing earlier is open", bodies: []string{"- [ ] wash it\n- [x] swept up\n"}, want: []string{" job open minor 2026-04-01.. |wash it|", " job cleared minor 2026-04-01..? |swept up|"}},
		{name: "a bare id nobody knows is words", bodies: []string{"- [ ] x-ray\n- [x] re-check; minor\n"},
			want: []string{" job open minor 2026-04-01.. |x-ray|", " job cleared minor 2026-04-01..? |re-check|"}},

		// Errors and warnings.
		{name: "ticking what nobody opened", bodies: []string{"- [x] tow-socket: done\n"}, faults: []string{"unknown-snag 01:4:7 |tow-socket|"}},
		{name: "again what nobody opened", bodies: []string{"- [ ] again tow-socket: x\n"}, faults: []string{"unknown-snag 01:4:13 |tow-socket|"}},
		{name: "clearing before opening", bodies: []string{"- [x] tow-socket: done\n", "- [ ] job tow-socket: dead\n"}, faults: []string{"cleared-before-opened 01:4:7 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-02.. |dead|"}},
		{name: "clearing above the opening in one note", bodies: []string{"- [x] tow-socket: done\n\nLater:\n\n- [ ] job tow-socket: dead\n"}, want: []string{"tow-socket job cleared minor 2026-04-01..2026-04-01 |dead|"}},
		{name: "opening what is open", bodies: []string{"- [ ] job tow-socket: dead\n", "- [ ] job tow-socket: dead\n"}, faults: []string{"opened-twice 02:4:11 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "again what is open", bodies: []string{"- [ ] job tow-socket: dead\n- [ ] again tow-socket: x\n"}, faults: []string{"opened-twice 01:5:13 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "opening and clearing what is open", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] job tow-socket: x\n"}, faults: []string{"opened-twice 02:4:11 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "clearing what is cleared", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] tow-socket: x\n", "- [x] tow-socket: y\n"}, faults: []string{"cleared-again 03:4:7 |tow-socket|"},
			want: []string{"tow-socket job cleared minor 2026-04-01..2026-04-02 |dead|"}},
		{name: "opening anew without again", bodies: []string{"- [ ] job tow-socket: dead\n- [x] tow-socket: x\n", "- [ ] job tow-socket: y\n"}, faults: []string{"reopened-without-again 02:4:11 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-02.. |y|"}},
		{name: "a remark on what is cleared", bodies: []string{"- [ ] job tow-socket: dead\n- [x] tow-socket: x\n", "- [ ] tow-socket: y\n"}, faults: []string{"reopened-without-again 02:4:7 |tow-socket|"},
			want: []string{"tow-socket job open minor 2026-04-02.. |y|"}},
		{name: "an open temporary without an id", bodies: []string{"- [ ] temporary: cable tie on the loom\n- [x] temporary: gone again\n"}, faults: []string{"temporary-without-id 01:4:7 |temporary: cable tie on the loom|"},
			want: []string{" temporary open major 2026-04-01.. |cable tie on the loom|", " temporary cleared major 2026-04-01..? |gone again|"}},
		{name: "a dangerous one cleared without a word", bodies: []string{"- [ ] job tow-socket: dead; dangerous\n", "- [x] tow-socket\n"}, faults: []string{"silently-cleared 02:4:7 |tow-socket|"},
			want: []string{"tow-socket job cleared dangerous 2026-04-01..2026-04-02 |dead|"}},
		{name: "a dangerous one cleared with a word", bodies: []string{"- [ ] job tow-socket: dead; dangerous\n", "- [x] tow-socket: rewired\n"}, want: []string{"tow-socket job cleared dangerous 2026-04-01..2026-04-02 |dead|"}},

		// Near ids; digits apart do not count; a kind says that it is new.
		{name: "near an id, ticked", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] tow-sokcet: done\n"}, faults: []string{"unknown-snag 02:4:7 |tow-sokcet|"},
			want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "near an id", bodies: []string{"- [ ] job tow-socket: dead\n", "- [ ] tow-sockets: still\n"}, faults: []string{"near-id 02:4:7 |tow-sockets|"}, want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "near a part", bodies: []string{"- [ ] rear-baem: look\n"}, faults: []string{"near-id 01:4:7 |rear-baem|"}},
		{name: "near, but new by its kind", bodies: []string{"- [ ] job tow-socket: dead\n- [ ] job tow-sockets: all\n"}, want: []string{"tow-socket job open minor 2026-04-01.. |dead|", "tow-sockets job open minor 2026-04-01.. |all|"}},
		{name: "digits apart", bodies: []string{"- [ ] seal-1: a\n- [ ] seal-2: b\n- [ ] seal-22: c\n"},
			want: []string{"seal-1 job open minor 2026-04-01.. |a|", "seal-2 job open minor 2026-04-01.. |b|", "seal-22 job open minor 2026-04-01.. |c|"}},
		{name: "capitals", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] Tow-Socket: done\n"}, faults: []string{"near-id 02:4:7 |Tow-Socket|"}, want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "no hyphen", bodies: []string{"- [ ] job tow-socket: dead\n", "- [x] towsocket: done\n"}, faults: []string{"near-id 02:4:7 |towsocket|"}, want: []string{"tow-socket job open minor 2026-04-01.. |dead|"}},
		{name: "a kind misspelt", bodies: []string{"- [ ] temporery tow-socket: dead\n- [x] tow-socket: done\n"}, faults: []string{"near-kind 01:4:7 |temporery|"}},
		{name: "a kind that stands first in plain words", bodies: []string{"- [ ] job to do: sweep\n"}, want: []string{" job open minor 2026-04-01.. |to do: sweep|"}},

		// Clauses that do not fit.
		{name: "disclose is for what is minor", bodies: []string{"- [ ] job a-scratch: x; disclose\n- [ ] job tow-socket: x; disclose; major\n- [ ] temporary exhaust-hanger: x; minor; disclose\n"},
			faults: []string{"disclose-not-minor 01:5:26 |disclose|", "disclose-not-minor 01:6:43 |disclose|"}, want: []string{"a-scratch job open minor 2026-04-01.. |x|"}},
		{name: "disclosed, then major", bodies: []string{"- [ ] job a-scratch: x; disclose\n", "- [ ] a-scratch: rust; major\n"}, faults: []string{"disclose-not-minor 02:4:7 |a-scratch: rust|"},
			want: []string{"a-scratch job open minor 2026-04-01.. |x|"}},
		{name: "waits for something unknown", bodies: []string{"- [ ] job tow-socket: x; waits for socket-new; waits for rear-baem\n"},
			faults: []string{"unknown-waits-for 01:4:36 |socket-new|", "unknown-waits-for 01:4:58 |rear-baem|"}},
		{name: "waits for what comes later", bodies: []string{"- [ ] job tow-socket: x; waits for loom-mend\n", "- [ ] job loom-mend: y\n"},
			want: []string{"tow-socket job open minor 2026-04-01.. |x|", "loom-mend job open minor 2026-04-02.. |y|"}},
		{name: "waits in a circle", bodies: []string{"- [ ] job loom-mend: y\n- [ ] job tow-socket: x; waits for loom-mend\n", "- [ ] loom-mend: z; waits for tow-socket\n"}, faults: []string{"waits-in-circle 02:4:31 |tow-socket|"},
			want: []string{"loom-mend job open minor 2026-04-01.. |y|", "tow-socket job open minor 2026-04-01.. |x|"}},
		{name: "waits for itself", bodies: []string{"- [ ] job tow-socket: x; waits for tow-socket\n"}, faults: []string{"waits-in-circle 01:4:36 |tow-socket|"}},
		{name: "waits in a circle of three", bodies: []string{"- [ ] job a-a: x; waits for b-b\n- [ ] job b-b: x; waits for c-c\n- [ ] job c-c: x; waits for a-a\n"}, faults: []string{"waits-in-circle 01:6:29 |a-a|"},
			want: []string{"a-a job open minor 2026-04-01.. |x|", "b-b job open minor 2026-04-01.. |x|"}},
		{name: "what hangs on a line in error is not said", bodies: []string{"- [ ] job tow-socket: x; mayor\n- [ ] tow-socket: y\n", "- [x] tow-socket: z\n"}, faults: []string{"unknown-clause 01:4:26 |mayor|"}},
		{name: "due after a distance, without an odometer", bodies: []string{"- [ ] job tow-socket: x; due 500 km\n"}, faults: []string{"due-without-odometer 01:4:26 |due 500 km|"}, want: []string{"tow-socket job open minor 2026-04-01.. |x|"}},
	} {
		b := trial.Compile(t, bodies(c.bodies...)+trial.Session("2026-03-01.md", "parts:\n  rear-beam: needed beam", ""))
		var faults []string
		for _, f := range c.faults {
			flaw, rest, _ := strings.Cut(f, " ")
			n, place, _ := strings.Cut(rest, ":")
			faults = append(faults, flaw+" 2026-04-"+n+".md:"+place)
		}
		trial.WantFaults(t, c.name, b, faults...)
		trial.WantList(t, c.name, snagsOf(At(b, 0, trial.Today), fact.FromNote), c.want)
	}
}

// A fault about an id knows the ids there are, and where the story began.
func TestSnagFaultsKnowMore(t *testing.T) {
	b := trial.Compile(t, bodies("- [ ] job tow-socket: dead\n", "- [x] tow-sokcet: x\n- [ ] job tow-socket: y\n- [ ] job a-b: x; waits for tow-soket\n"))
	near := map[string]string{}
	for _, f := range b.Faults {
		near[string(f.Flaw)] = strings.Join(f.Near, " ")
		if f.Flaw == journal.OpenedTwice && f.Other.Text() != "job tow-socket: dead" {
			t.Errorf("opened twice, first at %q", f.Other.Text())
		}
	}
	if near["unknown-snag"] != "tow-socket" {
		t.Errorf("unknown snag offers %q", near["unknown-snag"])
	}
	if !strings.Contains(near["unknown-waits-for"], "tow-socket") {
		t.Errorf("unknown waits for offers %q", near["unknown-waits-for"])
	}
}

func TestSeverityAndSystem(t *testing.T) {
	b := trial.Compile(t, trial.Card("stages:\n  axle: system brakes\n  paint: x; system paint\n  plain: x")+
		trial.Session("2026-04-01.md", "stage: axle", "- [ ] job from-stage: x\n- [ ] job own-system: x; system interior\n- [ ] job own-stage: x; stage paint\n- [ ] job graded-one: x; minor\n- [ ] plain words\n- [ ] job worse-later: x; stage plain\n")+
		trial.Session("2026-04-02.md", "stage: plain", "- [ ] temporary a-fix: x\n- [ ] job safe-one: x\n- [ ] job fuel-line: x; system fuel\n- [ ] worse-later: y; system steering\n- [ ] temporary b-fix: x; minor\n- [ ] own-stage: moved; stage axle\n"))
	trial.WantFaults(t, "severity", b)
	got := map[string]string{}
	for _, s := range At(b, 0, trial.Today).Snags {
		got[s.ID] = s.Severity.String() + " " + s.Stage + "/" + s.System
	}
	for id, want := range map[string]string{
		"from-stage": "major axle/brakes", "own-system": "minor axle/interior", "own-stage": "major axle/brakes", "graded-one": "minor axle/brakes", "": "major axle/brakes",
		"worse-later": "major plain/steering", "a-fix": "major plain/", "safe-one": "minor plain/", "fuel-line": "major plain/fuel", "b-fix": "minor plain/",
	} {
		trial.WantEqual(t, id, got[id], want)
	}
	trial.WantEqual(t, "before it moved", At(b, trial.Day("2026-04-01"), trial.Today).Snags[0].Severity.String(), "major")
	for _, s := range At(b, trial.Day("2026-04-01"), trial.Today).Snags {
		if s.ID == "own-stage" && (s.Stage != "paint" || s.Severity.String() != "minor") {
			t.Errorf("before it moved: %s %s", s.Stage, s.Severity)
		}
	}
}

func TestDueAndDoable(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-04-01.md", "odometer: 91252 mi\nparts:\n  rubber: ordered rubber\n  bolt: arrived bolt", `
- [ ] job by-date: x; due 2026-05-30
- [ ] job by-miles: x; due 30 mi
- [ ] job by-km: x; due 500 km
- [ ] job free-now: x; takes 1h30
- [ ] job waits-part: x; waits for rubber; waits for bolt
- [ ] job waits-bolt: x; waits for bolt
- [ ] job waits-snag: x; waits for free-now
- [ ] job waits-late: x; waits for not-yet
- [ ] recheck waits-check: x; waits for brake-test
`)+trial.Session("2026-05-01.md", "odometer: 91282 mi", "- [x] free-now: y\n- [ ] job not-yet: x\n")+trial.Session("2026-05-02.md", "odometer: 91283 mi", "")+trial.Session("2026-05-10.md", "parts:\n  rubber: fitted\ncheck", "")+
		trial.Session("2026-05-20.md", "odometer: 91600 mi\nparts:\n  - bolt: sold", "- [ ] by-date: put off; due 2026-06-30\n- [ ] by-miles: by day instead; due 2026-05-25\n"))
	show := func(date, id string) string {
		for _, s := range At(b, trial.Day(date), trial.Today).Snags {
			if s.ID == id {
				at := ""
				if s.DueAt != nil {
					at = s.DueAt.String()
				}
				return strings.TrimSpace(fmt.Sprintf("%s%s overdue:%v doable:%v", s.Due, at, s.Overdue, s.Doable))
			}
		}
		return "none"
	}
	for _, c := range []struct{ date, id, want string }{
		{"2026-04-01", "by-date", "2026-05-30 overdue:false doable:true"},
		{"2026-05-19", "by-date", "2026-05-30 overdue:false doable:true"},
		{"2026-05-20", "by-date", "2026-06-30 overdue:false doable:true"},
		{"2026-06-30", "by-date", "2026-06-30 overdue:false doable:true"},
		{"2026-07-01", "by-date", "2026-06-30 overdue:true doable:true"},
		{"2026-04-01", "by-miles", "91282 mi overdue:false doable:true"},
		{"2026-05-01", "by-miles", "91282 mi overdue:false doable:true"}, // reached, not passed
		{"2026-05-02", "by-miles", "91282 mi overdue:true doable:true"},
		{"2026-05-20", "by-miles", "2026-05-25 overdue:false doable:true"},
		{"2026-05-01", "by-km", "91563 mi overdue:false doable:true"}, // 500 km are 310.69 mi
		{"2026-05-20", "by-km", "91563 mi overdue:true doable:true"},
		{"2026-04-01", "waits-part", "overdue:false doable:false"},
		{"2026-05-10", "waits-part", "overdue:false doable:true"},
		{"2026-05-20", "waits-part", "overdue:false doable:false"}, // the bolt is sold
		{"2026-04-01", "waits-bolt", "overdue:false doable:true"},
		{"2026-04-01", "waits-snag", "overdue:false doable:false"},
		{"2026-05-01", "waits-snag", "overdue:false doable:true"},
		{"2026-04-01", "waits-late", "overdue:false doable:false"}, // what it waits for is not even open
		{"2026-05-01", "waits-late", "overdue:false doable:false"},
		{"2026-05-01", "free-now", "overdue:false doable:false"}, // cleared
		{"2026-04-01", "waits-check", "overdue:false doable:false"},
	} {
		trial.WantEqual(t, c.id+" on "+c.date, show(c.date, c.id), c.want)
	}
	// Without a date asked about, lateness is against today.
	if st := At(b, 0, trial.Day("2026-06-30")); st.Snags[len(st.Snags)-1].Overdue {
		t.Error("overdue on the day")
	}
	for _, s := range At(b, 0, trial.Day("2026-07-02")).Snags {
		if s.ID == "by-date" && !s.Overdue {
			t.Error("not overdue after the day")
		}
		if s.ID == "free-now" && int(s.Takes) != 90 {
			t.Errorf("takes %v", s.Takes)
		}
	}
}

// Worst first, then oldest, then by id, those without one last, then as noted.
func TestSnagOrder(t *testing.T) {
	b := trial.Compile(t, bodies("- [ ] b plain\n- [ ] a plain\n- [ ] job z-z: x\n- [ ] job a-a: x\n- [ ] job m-m: x; major\n", "- [ ] job d-d: x; dangerous\n- [ ] job a-b: x\n- [ ] job b-b: x; major\n- [x] job c-c: x; dangerous\n"))
	var got []string
	for _, s := range At(b, 0, trial.Today).Snags {
		got = append(got, s.ID+s.Words[:1])
	}
	trial.WantEqual(t, "order", strings.Join(got, " "), "c-cx d-dx m-mx b-bx a-ax z-zx b a a-bx")
}

// What was said of a snag is kept in order, wherever it stood.
func TestSnagEvents(t *testing.T) {
	b := trial.Compile(t, bodies("- [x] tow-socket: done\n- [ ] job tow-socket: dead\n", "- [ ] again tow-socket: dead *again*\n- [ ] tow-socket: still\n", "- [x] tow-socket: new one\n"))
	trial.WantFaults(t, "events", b)
	s := At(b, 0, trial.Today).Snags[0]
	var got []string
	for _, e := range s.Events {
		got = append(got, fmt.Sprintf("%s %s %s", e.What, e.Date, e.Words))
	}
	trial.WantEqual(t, "events", strings.Join(got, ", "), "opened 2026-04-01 dead, cleared 2026-04-01 done, reopened 2026-04-02 dead *again*, remarked 2026-04-02 still, cleared 2026-04-03 new one")
	trial.WantEqual(t, "line of the last opening", s.Line(), 4)
	trial.WantEqual(t, "its file", s.Span.File.Path, "2026-04-02.md")
	trial.WantEqual(t, "plain words", s.PlainWords(), "dead again")
	trial.WantEqual(t, "cleared by", s.ClearedBy().Words, "new one")
}
