package journal

import (
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/source"
)

// A CheckLine is an inspection or procedure that was carried out.
type CheckLine struct {
	Session *Session
	Line    *note.Line
	Name    string
	Result  string            // passed, failed or done
	At      *measure.Quantity // the odometer; its own, else the session's; nil where neither says
	By      string
	System  string
	// Severity is how bad it is that the check failed; NoSeverity where the line does not say.
	Severity note.Severity
	Private  bool
	Denied   bool // its words take the result back, so it settles nothing
}

// unclear is the result of a check whose words take it back.
const unclear = "unclear"

func (c *CheckLine) Told() string {
	if c.Denied {
		return unclear
	}
	return c.Result
}

type Reading struct {
	Session  *Session
	Line     *note.Line
	Name     string
	Value    measure.Quantity
	Limits   note.Limits // as they stand on that line; nothing where it has none
	Severity note.Severity
	System   string
	Private  bool
}

// A Scan is what one control unit said.
type Scan struct {
	*note.Scan
	Session *Session
}

const (
	LimitsClash     source.Flaw = "limits-clash"
	OtherKindOfUnit source.Flaw = "other-kind-of-unit"
)

func addCheck(b *Build, s *Session, l *note.Line) {
	c := &CheckLine{Session: s, Line: l, Name: l.Name, Result: l.Head.(string), At: s.Odometer, Private: s.Private || l.Has("private")}
	note.SetPointer(&c.At, l, "at")
	c.Denied = denied(l)
	note.Set(&c.By, l, "by")
	note.Set(&c.System, l, "system")
	if sev := l.Choice("severity"); sev != nil {
		c.Severity = note.SeverityOf(sev.Word)
	}
	if isInspection(l) {
		addInspection(b, s, l)
	}
	if c.Result == "failed" {
		b.failed[c.Name] = c
	}
	b.Checks = append(b.Checks, c)
}

func addReading(b *Build, s *Session, l *note.Line) {
	r := &Reading{Session: s, Line: l, Name: l.Name, Value: l.Head.(measure.Quantity), Severity: note.Major, Private: s.Private || l.Has("private")}
	if sev := l.Choice("severity"); sev != nil {
		r.Severity = note.SeverityOf(sev.Word)
	}
	note.Set(&r.System, l, "system")
	var last *note.Found // clause that sets a limit
	for _, c := range l.Clauses {
		var next note.Limits
		switch v := c.Value.(type) {
		case measure.Quantity:
			if c.Word == "min" {
				next.Min = &v
			} else {
				next.Max = &v
			}
		case note.Limits:
			next = v
		default:
			continue
		}
		last = &c
		if next.Min != nil && r.Limits.Min != nil || next.Max != nil && r.Limits.Max != nil {
			b.reject(l, source.Fault{Flaw: LimitsClash, Span: c.Span, Word: c.Word, Why: "another clause has set that limit already"})
			return
		}
		if next.Min != nil {
			r.Limits.Min = next.Min
		}
		if next.Max != nil {
			r.Limits.Max = next.Max
		}
		if r.Limits.Min != nil && r.Limits.Max != nil && r.Limits.Min.Compare(*r.Limits.Max) > 0 {
			b.reject(l, source.Fault{Flaw: LimitsClash, Span: c.Span, Word: c.Word, Why: "the least is more than the most"})
			return
		}
	}
	if first := b.firstOf[r.Name]; first == nil {
		b.firstOf[r.Name] = r
	} else if !first.Value.Comparable(r.Value) {
		b.reject(l, source.Fault{Flaw: OtherKindOfUnit, Span: l.HeadSpan(), Word: r.Value.String(), Near: []string{first.Value.String()}, Other: first.Line.HeadSpan()})
		return
	}
	carried := r.Limits.After(b.limitsOf[r.Name])
	if last != nil && carried.Min != nil && carried.Max != nil && carried.Min.Compare(*carried.Max) > 0 {
		b.reject(l, source.Fault{Flaw: LimitsClash, Span: last.Span, Word: last.Word,
			Why: "a limit of an earlier line still holds, and the least, " + carried.Min.String() + ", is more than the most, " + carried.Max.String()})
		return
	}
	b.limitsOf[r.Name] = carried
	b.Readings = append(b.Readings, r)
}

// checkOdometers reports readings that go backwards from that of an earlier note.
func checkOdometers(b *Build) {
	var last *measure.Quantity
	var where source.Span
	for _, s := range b.Sessions {
		l := s.Note.Line("odometer")
		if last != nil && (l == nil || !l.Has("new cluster")) {
			checksBackwards(b, s, *last, where)
		}
		if s.Odometer == nil {
			s.Running = last
			continue
		}
		if last != nil && s.Odometer.Compare(*last) < 0 && !l.Has("new cluster") {
			b.fault(source.Fault{Flaw: OdometerBackwards, Span: l.HeadSpan(), Word: s.Odometer.String(), Why: last.String(), Other: where})
		}
		last, where = s.Odometer, l.HeadSpan()
		s.Running = last
	}
}

// checksBackwards reports checks that were carried out before an earlier note's reading.
func checksBackwards(b *Build, s *Session, last measure.Quantity, where source.Span) {
	for _, l := range s.Note.Lines {
		at, ok := note.Arg[measure.Quantity](l, "at")
		if ok && !b.LeftOut(l) && at.Compare(last) < 0 {
			b.fault(source.Fault{Flaw: OdometerBackwards, Span: l.Clause("at").Arg.Whole(), Word: at.String(), Why: last.String(), Other: where,
				Help: "Write what the odometer read when the check was carried out."})
		}
	}
}

// The first words behind the result of a check may take it back: then it settles nothing.

// denials are what those words begin with.
var denials = []string{
	`no(?:pe)?` + stop,
	`(?:but |or )?not(?:` + stop + `| (?:yet|passed|done|finished|good|ok|okay|tight|safe|tested|checked)\b)`,
	`(?:but (?:it )?)?fail(?:ed|s)?(?:` + stop + `| (?:at|on|the|for|again)\b)`,
	`(?:but (?:it )?|still )?(?:weeps?|weeping|leaks?|leaking|drips?|dripping)(?:` + stop + `| (?:at|from|on|still|a bit|a little|slightly|badly)\b)`,
	// later
	`(?:on |by |for )?(?:tomorrow|next (?:week|month|time|day|mon|tue|wed|thu|fri|sat|sun)\pL*)\b`, `(?:later|soon|tbc|tba|tbd|to (?:do|come|follow))` + stop,
	`(?:(?:the )?(?:results?|outcome|retest) (?:is |are |still |to )*)?(?:pending|awaited|awaiting|outstanding)\b`, `results? (?:still )?to (?:come|follow)\b`,
	`(?:booked|planned|postponed|cancelled|skipped|waiting)\b`,
	// in part
	`(?:partly|partially|half|halfway|almost|nearly|in part)(?:` + stop + `| (?:done|passed)\b)`,
	`(?:on |at |for )?(?:the )?(?:one|left|right|front|rear|near|off|driver'?s|passenger'?s)(?: \pL+)? only\b`, `only (?:on|at|for|one|half|the|left|right|front|rear)\b`,
	`before (?:i|we) (?:began|fitted|opened|started|took|touched)\b`,
	`(?:except|apart from|all but|unless)\b`, `\?`,
}

// stop is where a word stands alone.
const stop = `(?:$| *[,.;:!?)]| [-–—])`

var denial = regexp.MustCompile(`(?i)^(?:` + strings.Join(denials, "|") + `)`)

// denied tells whether a line's words take its result back, so that it settles nothing.
func denied(l *note.Line) bool { return Denial(l, l.Words()).S != "" && !l.Has("sure") }

// Denial returns the words that take back the result of a check or inspection, or the tick of an item.
func Denial(l *note.Line, words note.Text) note.Text {
	at := len(words.S) - len(strings.TrimLeft(words.S, " \t-–—,.:;("))
	if l.Head == "failed" {
		return words.Slice(0, 0)
	}
	return words.Slice(at, at+len(strings.TrimRight(denial.FindString(words.S[at:]), " -–—,.;:)!")))
}
