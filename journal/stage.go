package journal

import (
	"strings"

	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"

	"guidecoat/journal/measure"
)

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

// addStage takes a stage in; of several of one name the first is meant by it.
func (b *Build) addStage(s *Stage) {
	b.Stages = append(b.Stages, s)
	if b.stageAt[s.Name] == nil {
		b.stageAt[s.Name] = s
		b.stageNames = append(b.stageNames, s.Name)
		b.near.stages.Add(s.Name)
	}
}

func (b *Build) StageNamed(name string) *Stage { return b.stageAt[name] }

func (b *Build) StageNames() []string { return b.stageNames }

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

// stageOf is where a line belongs: its own `stage`, that of its part, or its session's.
func (b *Build) stageOf(s *Session, l *note.Line, part string) string {
	if stage, ok := note.Arg[string](l, "stage"); ok {
		return stage
	}
	if id := b.ids[part]; id != nil && id.stage != "" {
		return id.stage
	}
	return s.Stage
}

// StageOfPart is where a part belongs on a line of it.
func (b *Build) StageOfPart(pl *PartLine) string { return b.stageOf(pl.Session, pl.Line, pl.ID) }

// SystemOf returns the system of a stage, "" where it has none.
func (b *Build) SystemOf(stage string) string {
	if s := b.StageNamed(stage); s != nil {
		return s.System
	}
	return ""
}

// A Remaining is a fresh estimate of what a stage still needs.
type Remaining struct {
	Session *Session
	Line    *note.Line
	Stage   string
	Cost    [3]decimal.Decimal
	Hours   *[3]measure.Minutes
	Closed  bool // `nothing`: the stage needs no more, whatever comes back later
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
