package check

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
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
		look := func(known *near.Index, thing, name string, at source.Span) {
			if like := known.Slip(name); like != "" {
				p.Report(at, "the "+thing+" "+quote(name)+" is new, and close to "+quote(like), "Nearest: "+quote(like)+". Tell the two apart by more than a letter if they are not one.")
			}
		}
		for _, r := range p.State.Build.Readings {
			look(&readings, "reading", r.Name, r.Line.NameSpan())
		}
		for _, s := range p.State.Build.Scans {
			look(&units, "control unit", s.Name, s.Span)
		}
	},
}

var nearEquipment = &Check{
	Name: "near-equipment", Severity: problem.Warning,
	Summary: "equipment in other words than the one that turns checks on",
	Explain: "Work on a vehicle with a camera, radar, stability control, tyre sensors or high-voltage asks for more checks, if `equipment` has exactly that word. " +
		"With a slip in it, or by another name, they are not asked for, and nobody notices.",
	Example: onCard("vehicle:\nwrong|  equipment: stability controll, sun roof\nright|  equipment: stability control, tyre sensors, sun roof\n"),
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
			slip := pick.First(journal.KnownEquipment, func(known string) bool { return near.IsSlip(plain, known) })
			meant := cmp.Or(slip, journal.EquipmentIn(plain))
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
			name, _ := note.Arg[string](l, "from")
			if name == "" {
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
			s.used[name] = append(used, l.Clause("from").Arg.Whole())
		}
	}
	return s
}

var deceptiveCharacter = &Check{
	Name: "deceptive-character", Severity: problem.Warning,
	Summary: "a character that cannot be seen, or a letter that only looks like a Latin one",
	Explain: "A name with such a character in it looks like another and is none, so what belongs together is counted apart. " +
		"One that turns the direction of writing round shows a line otherwise than it is read.",
	Example: "---\nstage: rear axle\nwrong|cost: 9.00 seals; from Tidewеll\nright|cost: 9.00 seals; from Tidewell\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			d := deception{p: p, note: w.note, said: map[int]bool{}}
			d.unseen()
			d.lookalikes(w.note.File.Span(0, w.note.BodyStart()))
			for _, it := range w.note.Items {
				if it.Colon && it.Lead().S != "" {
					d.lookalikes(it.Lead().Whole())
				}
			}
		}
	},
}

// A deception is a look at one note. Only the first in a sound line is reported.
type deception struct {
	p      *Pass
	note   *note.Note
	said   map[int]bool // by line
	errors bool         // were looked at, as they are once something is found
}

func (d *deception) report(at source.Span, message, help string, fix *source.Fix) {
	if !d.errors {
		d.errors = true
		for _, f := range d.p.errors {
			if f.Span.File == d.note.File {
				d.said[f.Span.Begin().Line] = true
			}
		}
	}
	if line := at.Begin().Line; !d.said[line] {
		d.said[line] = true
		d.p.ReportFix(at, message, help, fix)
	}
}

// unseen finds marks of direction everywhere, and what has no width in front matter.
func (d *deception) unseen() {
	data := d.note.File.Data
	for at := 0; ; {
		i := bytes.IndexByte(data[at:], 0xE2) // all of them begin with it in UTF-8
		if i < 0 {
			return
		}
		at += i
		r, size := utf8.DecodeRune(data[at:])
		switch {
		case r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069:
			d.report(d.note.File.Span(at, at+size), fmt.Sprintf("the character U+%04X stands here, which turns the direction of writing round", r), deleteIt, nil)
		case at < d.note.BodyStart() && (r >= 0x200B && r <= 0x200F || r == 0x2028 || r == 0x2029 || r == 0x2060) && !joins(data, at, r):
			d.report(d.note.File.Span(at, at+size), fmt.Sprintf("the character U+%04X stands here, which cannot be seen", r), deleteIt, nil)
		}
		at += size
	}
}

// joins tells whether a joiner stands where words of some scripts, and emoji, need one.
func joins(data []byte, at int, r rune) bool {
	return (r == 0x200C || r == 0x200D) && at > 0 && data[at-1] >= utf8.RuneSelf
}

// lookalikes finds words in which Latin letters stand with such as only look like them.
func (d *deception) lookalikes(in source.Span) {
	data := in.File.Data[in.Start:in.End]
	greekOrCyrillic := func(c byte) bool { return c >= 0xCD && c <= 0xD4 } // how they begin in UTF-8
	if !slices.ContainsFunc(data, greekOrCyrillic) {
		return
	}
	text := string(data)
	for at := 0; at < len(text); {
		if !greekOrCyrillic(text[at]) {
			at++
			continue
		}
		start := len(strings.TrimRightFunc(text[:at], inWord))
		end := len(text) - len(strings.TrimLeftFunc(text[at:], inWord))
		word := text[start:end]
		latin, first := near.Latin(word)
		if first != 0 && latin != word && strings.ContainsFunc(word, func(r rune) bool { return r < utf8.RuneSelf && unicode.IsLetter(r) }) {
			only, _ := near.Latin(string(first))
			d.report(in.Part(start, end), fmt.Sprintf("%s holds U+%04X, which only looks like the Latin letter %q", quote(word), first, only),
				"Write "+quote(latin)+" with Latin letters.", &source.Fix{Span: in.Part(start, end), Text: latin})
		}
		at = max(end, at+1)
	}
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' }
