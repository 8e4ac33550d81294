package journal

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"guidecoat/journal/fact"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// The names that lines share: stages, parts, and the ids of everything else.

// resolveStages settles which stages there are and which each session is in.
func resolveStages(b *Build) {
	b.stageAt = map[string]*Stage{}
	for _, s := range b.Card.Stages {
		b.addStage(s)
	}
	if !listsStages(b) {
		collectStages(b)
	}
	for _, s := range b.Sessions {
		l := s.Note.Line("stage")
		if l == nil {
			s.StageBad = s.Note.Field("stage") != nil
			continue
		}
		if b.StageNamed(l.Text.S) == nil {
			b.reject(l, unknownStage(b, l.Text.S, l.Text.Whole()))
			s.StageBad = true
			continue
		}
		s.Stage = l.Text.S
	}
}

// listsStages tells whether the job card says which stages there are; otherwise the notes do.
func listsStages(b *Build) bool {
	return len(b.Card.Note.Lines) > 0 && b.Card.Note.Field("stages") != nil
}

func collectStages(b *Build) {
	add := func(name string, at source.Span) {
		if b.StageNamed(name) != nil {
			return
		}
		if like := b.near.stages.Nearest(name); like != "" {
			b.fault(source.Fault{Flaw: SimilarStage, Span: at, Word: name, Near: []string{like}})
		}
		b.addStage(&Stage{Name: name})
	}
	clause := func(l *note.Line) {
		c := l.Clause("stage")
		if c == nil || b.LeftOut(l) {
			return
		}
		if comma := strings.IndexByte(c.Arg.S, ','); comma > 0 { // a stage that nobody lists may be called anything, but hardly this
			more := c.Arg.Slice(comma, len(c.Arg.S))
			b.reject(l, source.Fault{Flaw: note.ExtraWords, Span: more.Whole(), Word: more.S})
			return
		}
		add(c.Arg.S, c.Arg.Whole())
	}
	for _, s := range b.Sessions {
		if l := s.Note.Line("stage"); l != nil {
			add(l.Text.S, l.Text.Whole())
		}
		for _, l := range s.Note.Lines {
			clause(l)
			if l.Kind.Key == "remaining" && !b.LeftOut(l) {
				add(l.Name, l.NameSpan())
			}
		}
		for _, it := range s.Note.Items {
			clause(it.Line)
		}
	}
}

// unknownStage says which stages there are; of very many the nearest only.
func unknownStage(b *Build, name string, at source.Span) source.Fault {
	const many = 100
	f := source.Fault{Flaw: UnknownStage, Span: at, Word: name, Near: b.stageNames}
	if len(f.Near) > many {
		f.Near = oneOrNone(b.near.stages.Nearest(name))
	}
	return f
}

// checkNames rejects a line that names an unknown stage or part, be it bad already: all is told at once.
func checkNames(b *Build, l *note.Line) {
	if c := l.Clause("stage"); c != nil && c.Arg.S != "" && b.StageNamed(c.Arg.S) == nil && (listsStages(b) || !b.LeftOut(l)) {
		b.reject(l, unknownStage(b, c.Arg.S, c.Arg.Whole()))
	}
	if part, ok := note.Arg[string](l, "for"); ok && part != "" && !b.isPart(part) && b.donor(part) == nil {
		b.reject(l, source.Fault{Flaw: UnknownPart, Span: l.Clause("for").Arg.Whole(), Word: part, Near: b.near.parts.Meant(part)})
	}
}

func addRemaining(b *Build, s *Session, l *note.Line) {
	if b.StageNamed(l.Name) == nil {
		b.reject(l, unknownStage(b, l.Name, l.NameSpan()))
		return
	}
	r := &Remaining{Session: s, Line: l, Stage: l.Name, Cost: l.Head.([3]decimal.Decimal),
		Closed: l.HeadSpan().Text() == "nothing"}
	note.SetPointer(&r.Hours, l, "hours")
	b.Left = append(b.Left, r)
}

// Words that tell of a part instead of naming it begin so, or have a verb.
var (
	pointsBack = words("it they this that these those see as because since if when not maybe perhaps by until")
	aVerb      = words("is are was were isn't wasn't has have had will won't can can't could must should would needs came cannot")
	theOther   = regexp.MustCompile(`(?i)^(?:no \pL+|the (?:old|other|first|last) one)\b`)
)

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

// namesThing tells whether words can name a part. Every part is asked for, so no pattern is tried.
func namesThing(said string) bool {
	first := true
	for word := range strings.FieldsFuncSeq(said, func(r rune) bool { return r != '\'' && r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		word = strings.ToLower(word)
		short, _, _ := strings.Cut(word, "'") // it's, they're
		if aVerb[word] || aVerb[short] || first && (pointsBack[short] || (short == "no" || short == "the") && theOther.MatchString(said)) {
			return false
		}
		first = false
	}
	return said != ""
}

// declareParts reads all lines of parts, in order, before anything refers to them.
func declareParts(b *Build) {
	for _, r := range b.DueRules() { // the table of checks due comes first
		b.identify(r.Name, &identity{sort: checkSort})
	}
	for _, f := range b.Card.Fired() { // parts that are needed, before any line names them
		if b.ids[f.Part] == nil {
			b.identify(f.Part, &identity{sort: partSort, span: f.Span, fired: true})
		}
	}
	for _, d := range b.Donors {
		b.identify(d.Name, &identity{sort: donorSort, span: d.Line.NameSpan()})
	}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			if l.Kind.Key == "parts" {
				b.ofParts = append(b.ofParts, sessionLine{s, l})
			}
		}
	}
	last, known := map[string]*PartLine{}, provenancesOf(b)
	for _, x := range b.ofParts {
		if note.IsID(x.Name) {
			if !b.LeftOut(x.Line) {
				judgeDonor(b, x.Line, known[x.Name])
			}
			declarePart(b, x.in, x.Line, last)
		}
	}
	declareDerived(b)
}

func declarePart(b *Build, s *Session, l *note.Line, last map[string]*PartLine) {
	known := b.ids[l.Name]
	first := known == nil && !b.badID[l.Name]
	checkNames(b, l)
	if known != nil && known.sort != partSort {
		b.leaveOut(l)
		if !b.badID[l.Name] { // said once
			b.fault(source.Fault{Flaw: IDTaken, Span: l.NameSpan(), Word: l.Name, Why: known.sort, Other: known.span})
		}
	}
	if known == nil {
		keepSnag(b, s, l, l.Name, l.NameSpan())
	}
	if !b.LeftOut(l) && first && l.Words().S == "" {
		b.reject(l, source.Fault{Flaw: UndescribedPart, Span: l.NameSpan(), Word: l.Name, Near: oneOrNone(b.near.parts.Nearest(l.Name))})
	}
	if b.LeftOut(l) {
		b.badID[l.Name] = true
		return
	}
	if known == nil {
		if like := b.near.parts.Nearest(l.Name); like != "" && near.IsSlip(like, l.Name) {
			b.fault(source.Fault{Flaw: NearPart, Span: l.NameSpan(), Word: l.Name, Near: []string{like}})
		}
		known = &identity{sort: partSort, span: l.NameSpan()}
		b.identify(l.Name, known)
	}
	if known.fired {
		known.fired, known.span = false, l.NameSpan()
	}
	if stage, ok := note.Arg[string](l, "stage"); ok {
		known.stage = stage
	}
	p := &PartLine{Session: s, Line: l, ID: l.Name, State: l.Head.(string), Private: s.Private || l.Has("private")}
	if p.Remark = l.Words().S; known.span == l.NameSpan() && namesThing(p.Remark) {
		p.Description, p.Remark = p.Remark, ""
	}
	before := last[p.ID]
	if before != nil && !fact.Reached(p.State, before.State) && !fact.EndsRound(p.State) {
		b.fault(source.Fault{Flaw: PartBackwards, Span: l.HeadSpan(), Word: p.State, Why: before.State})
	}
	if before != nil && !fact.EndsRound(before.State) && !fact.Reached(before.State, "fitted") {
		p.Asks = before.Asks
	}
	note.Set(&p.Asks, l, "asks for")
	last[p.ID] = p
	b.PartLines = append(b.PartLines, p)
}

// keepSnag rejects a line that takes the id of an earlier snag: it would make a temporary fix forgotten.
func keepSnag(b *Build, s *Session, l *note.Line, id string, at source.Span) {
	o := b.openings[id]
	if o == nil || b.LeftOut(o.Line) || cmp.Or(cmp.Compare(o.Session.Date, s.Date), comparePaths(o.Session.Path, s.Path)) >= 0 {
		return
	}
	if !b.LeftOut(l) && !b.snagFirst[id] { // said once
		b.reject(l, source.Fault{Flaw: IDTaken, Span: at, Word: id, Why: snagSort, Other: o.IDSpan})
	}
	b.leaveOut(l)
	b.snagFirst[id] = true
}

// declareDerived takes in the ids of what follows by itself from sound lines.
func declareDerived(b *Build) {
	add := func(id, sort string, at source.Span) {
		if b.ids[id] == nil {
			b.identify(id, &identity{sort: sort, span: at})
		}
	}
	reserve := func(s *Session, l *note.Line, id, sort string, at source.Span) {
		if b.ids[id] == nil {
			if keepSnag(b, s, l, id, at); b.LeftOut(l) {
				return
			}
		}
		if other := b.ids[id]; other != nil && other.sort != sort {
			b.reject(l, source.Fault{Flaw: IDTaken, Span: at, Word: id, Why: other.sort, Other: other.span})
			return
		}
		add(id, sort, at)
	}
	for _, d := range b.Donors {
		for _, pl := range b.PartLines {
			if d.Flood && said(pl.Line, "donor") == d.Name {
				add(FloodedID(pl.ID), "part that stood in water", pl.Line.NameSpan())
			}
		}
	}
	for _, p := range b.Papers {
		add(p.ID(), paperSort, p.At)
	}
	for _, f := range b.Card.Fired() {
		add(FiredID(f.Part), damageSort, f.Span)
	}
	asked := func(s *Session, l *note.Line) {
		names, _ := note.Arg[note.Asks](l, "asks for")
		for _, name := range names {
			if !l.Bad {
				reserve(s, l, name, checkSort, l.Clause("asks for").Arg.Whole())
			}
		}
	}
	for _, s := range b.Sessions {
		for _, l := range s.Note.Lines {
			surcharge, part := (*note.Found)(nil), ""
			if l.Kind.Key == "cost" {
				surcharge, part = l.Clause("surcharge"), said(l, "for")
			}
			switch {
			case surcharge != nil && part != "" && b.LeftOut(l):
				b.badID[SurchargeID(part)] = true
			case b.LeftOut(l):
			case surcharge != nil && part != "":
				reserve(s, l, SurchargeID(part), surchargeSort, surcharge.Span)
			case l.Kind.Key == "inspection" && l.Has("until"):
				reserve(s, l, paperID("inspection"), paperSort, l.Clause("until").Span)
			case l.Kind.Key == "papers":
				reserve(s, l, paperID(l.Name), paperSort, l.NameSpan())
			case l.Kind.Key == "readings":
				reserve(s, l, ReadingID(l.Name), readingSort, l.NameSpan())
			case l.Kind.Key == "checks" && l.Head == "failed":
				reserve(s, l, l.Name, checkSort, l.NameSpan())
			}
			if l.Kind.Key == "parts" {
				asked(s, l)
			}
		}
		for _, it := range s.Note.Items {
			asked(s, it.Line)
		}
		for _, sc := range s.Note.Scans {
			for _, c := range sc.Codes {
				add(fact.ScanID(sc.Name, c.Code), scanSort, c.Span)
			}
		}
	}
}

func hasSpace(s string) bool { return strings.ContainsAny(s, " \t") }

// suggestID makes an id for a snag out of the first words that carry meaning.
func suggestID(words string) string {
	var kept []string
	for _, w := range strings.Fields(note.PlainWords(words)) {
		if w = note.SuggestID(w); len(w) > 2 && !slices.Contains([]string{"the", "and", "with", "until", "for", "has", "was"}, w) {
			kept = append(kept, w)
		}
		if len(kept) == 2 {
			return strings.Join(kept, "-")
		}
	}
	return strings.Join(append(kept, "fix"), "-")
}
