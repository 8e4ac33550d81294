package check

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// Names that are nearly known ones.

var nearCheckName = &Check{
	Name: "near-check-name", Severity: problem.Warning,
	Summary: "a check or fastener whose name is a letter or two from one that is asked for",
	Explain: "A check settles what is due or has failed only under its exact name. " +
		"With a slip in the name that stays outstanding, although the work was done.",
	Example: "---\nchecks:\nwrong|  wheel-retorqe: done; at 91310 mi\nright|  wheel-retorque: done; at 91310 mi\n---\n",
	Run: func(p *Pass) {
		var known, failed, fasteners near.Index
		for _, f := range p.State.Build.Card.Fasteners {
			fasteners.Add(f.ID)
		}
		for _, t := range p.State.Build.Tightenings {
			like := fasteners.Nearest(t.ID)
			if due := p.State.Snag(like); like != t.ID && due != nil && due.Open {
				p.Report(t.Line.NameSpan(), "the job card lists no fastener "+quote(t.ID), "Nearest: "+quote(like)+". Only that name settles what is outstanding.")
			}
		}
		due := map[string]bool{journal.RoadworthinessTest: true}
		known.Add(journal.RoadworthinessTest)
		for _, r := range p.State.Build.DueRules() {
			known.Add(r.Name)
			due[r.Name] = true
		}
		ask := func(l *note.Line) {
			names, _ := note.Arg[note.Asks](l, "asks for")
			for _, name := range names {
				if like := known.Nearest(name); like != "" && !due[name] {
					p.Report(l.Clause("asks for").Arg.Whole(), "no check of the table is called "+quote(name), "Nearest: "+quote(like)+".")
				}
			}
		}
		for _, pl := range p.State.Build.PartLines {
			if p.looks(pl.Session) {
				ask(pl.Line)
			}
		}
		for _, a := range p.State.Build.Acts {
			if p.looks(a.Session) {
				ask(a.Line)
			}
		}
		for _, c := range p.State.Build.Checks {
			other := failed.Nearest(c.Name)
			if due[c.Name] || other == c.Name {
				continue
			}
			like := known.Nearest(c.Name)
			if otherWord(like, c.Name) && p.State.Snag(like) == nil {
				like = "" // nothing asks for a check of that name either
			}
			if like == "" && near.IsSlip(other, c.Name) {
				like = other
			}
			if like != "" {
				p.Report(c.Line.NameSpan(), "no check that falls due or has failed is called "+quote(c.Name), "Nearest: "+quote(like)+". Only that name settles what is outstanding.")
			} else if c.Result == "failed" {
				failed.Add(c.Name)
			}
		}
	},
}

// otherWord tells whether a letter of a short word makes it another word: fuse-check is no fume-check.
func otherWord(like, name string) bool {
	letters := func(s string) string {
		b := []byte(s)
		slices.Sort(b)
		return string(b)
	}
	return like != "" && len(like) == len(name) && letters(like) != letters(name) && !near.IsSlip(like, name)
}

var nearReading = &Check{
	Name: "near-reading", Severity: problem.Warning,
	Summary: "a new reading, or a new control unit, whose name is a letter or two from a known one",
	Explain: "A later reading or scan settles what an earlier one left outstanding only under its exact name, and only then do its limits hold. " +
		"With a slip in the name it stands for itself.",
	Example: "---\nreadings:\n  - gas-pressure: 30 mbar; within 28..37 mbar\nwrong|  - gas-presure: 60 mbar\nright|  - gas-pressure: 31 mbar\n---\n",
	Run: func(p *Pass) {
		var readings, units near.Index
		for _, r := range p.State.Build.Readings {
			if like := readings.Slip(r.Name); like != "" {
				p.Report(r.Line.NameSpan(), "the reading "+quote(r.Name)+" is new, and close to "+quote(like), "Nearest: "+quote(like)+". Tell the two apart by more than a letter if they are not one.")
			}
		}
		for _, s := range p.State.Build.Scans {
			if like := units.Slip(s.Name); like != "" {
				p.Report(s.Span, "the control unit "+quote(s.Name)+" is new, and close to "+quote(like), "Nearest: "+quote(like)+". Tell the two apart by more than a letter if they are not one.")
			}
		}
	},
}

var nearEquipment = &Check{
	Name: "near-equipment", Severity: problem.Warning,
	Summary: "equipment in other words than the one that turns checks on",
	Explain: "Work on a vehicle with a camera, radar, stability control, tyre sensors or high-voltage asks for more checks, if `equipment` has exactly that word. " +
		"With a slip in it, or by another name, they are not asked for, and nobody notices.",
	Example: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
currency: GBP
vehicle:
wrong|  equipment: stability controll, sun roof
right|  equipment: stability control, tyre sensors, sun roof
---
`,
	Run: func(p *Pass) {
		d, ok := p.State.Build.Card.Detail("equipment")
		if !ok {
			return
		}
		has := p.State.Build.Card.Equipment()
		at := 0
		for word := range strings.SplitSeq(d.Value, ",") {
			typed := strings.TrimSpace(word)
			begin := at + strings.Index(word, typed)
			at += len(word) + 1
			plain := strings.Join(strings.Fields(strings.ToLower(typed)), " ")
			meant := journal.EquipmentIn(plain)
			for _, known := range journal.KnownEquipment {
				if near.IsSlip(plain, known) {
					meant = known
				}
			}
			if meant != "" && !slices.Contains(has, meant) {
				span := d.Line.Text.Whole()
				span.Start, span.End = span.Start+int32(begin), span.Start+int32(begin+len(typed))
				p.Report(span, "no checks follow from "+quote(typed), "Nearest: "+quote(meant)+". Only that word turns its checks on.")
			}
		}
	},
}

var nearSupplier = &Check{
	Name: "near-supplier", Severity: problem.Warning,
	Summary: "two suppliers that differ by a letter or two, or in capitals alone",
	Explain: "What was paid is added up by supplier as each is spelled, so a slip parts one supplier in two. " +
		"The rarer spelling is named, or the later one.",
	Example: "---\nstage: rear axle\ncost:\n  - 9.00 seals; from Tidewell Dismantlers\nwrong|  - 6.49 grease; from Tidewel Dismantlers\nright|  - 6.49 grease; from Tidewell Dismantlers\n---\n",
	Run: func(p *Pass) {
		var known near.Index
		used := p.from().used
		for _, name := range p.from().names {
			if like := known.Slip(name); like != "" && !disguised(like, name) {
				odd, usual := name, like
				if len(used[like]) < len(used[name]) {
					odd, usual = like, name
				}
				p.Report(used[odd][0], "the supplier "+quote(odd)+" is close to "+quote(usual), "Nearest: "+quote(usual)+". Spell both the same if they are one.")
			}
		}
	},
}

// disguised tells whether two names look alike; that is another check's.
func disguised(a, b string) bool {
	a, _ = near.Latin(a)
	b, _ = near.Latin(b)
	return a == b
}

// suppliers are the names behind `from`, in the order of first use, and where each stands
// in a line that counts.
type suppliers struct {
	names, all []string // those of lines that count, and of any
	used       map[string][]source.Span
}

func suppliersOf(b *journal.Build) *suppliers {
	s := &suppliers{used: map[string][]source.Span{}}
	for _, in := range b.Sessions {
		for _, l := range in.Note.Lines {
			c := l.Clause("from")
			if c == nil {
				continue
			}
			name, ok := c.Value.(string)
			if !ok || name == "" {
				continue
			}
			used, known := s.used[name]
			if !known {
				s.all, s.used[name] = append(s.all, name), nil
			}
			if b.LeftOut(l) {
				continue
			}
			if used == nil {
				s.names = append(s.names, name)
			}
			s.used[name] = append(used, c.Arg.Whole())
		}
	}
	return s
}
