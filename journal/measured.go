package journal

import (
	"cmp"
	"maps"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
	"guidecoat/journal/speech"
)

// Checks, readings and inspections.

const (
	LimitsClash     source.Flaw = "limits-clash"
	OtherKindOfUnit source.Flaw = "other-kind-of-unit"
)

func addCheck(b *Build, s *Session, l *note.Line) {
	c := &CheckLine{Session: s, Line: l, Name: l.Name, Result: l.Head.(string), At: s.Odometer, Severity: l.Severity(), Private: s.Private || l.Has("private")}
	note.SetPointer(&c.At, l, "at")
	c.Denied = denied(l)
	note.Set(&c.By, l, "by")
	note.Set(&c.System, l, "system")
	if isInspection(l) {
		addInspection(b, s, l)
	}
	if c.Result == "failed" {
		b.failed[c.Name] = c
	}
	b.Checks = append(b.Checks, c)
}

func addReading(b *Build, s *Session, l *note.Line) {
	r := &Reading{Session: s, Line: l, Name: l.Name, Value: l.Head.(measure.Quantity), Private: s.Private || l.Has("private")}
	r.Severity = cmp.Or(l.Severity(), note.Major)
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
		if r.Limits = next.After(r.Limits); r.Limits.Min != nil && r.Limits.Max != nil && r.Limits.Min.Compare(*r.Limits.Max) > 0 {
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

// FoundAlone is the flaw of what was found by no inspection.
const FoundAlone source.Flaw = "found-alone"

func addInspection(b *Build, s *Session, l *note.Line) {
	i := &Inspection{Session: s, Line: l, Passed: l.Head == "passed" && !denied(l), Words: l.Words().S, At: s.Odometer, Private: s.Private || l.Has("private")}
	note.SetPointer(&i.At, l, "at")
	note.Set(&i.By, l, "by")
	if note.Set(&i.Until, l, "until"); i.Until != 0 {
		b.Papers = append(b.Papers, &Paper{Session: s, Line: l, Name: "inspection", At: l.Clause("until").Span, Until: i.Until, Warn: usualWarning, Road: new(true), Private: i.Private})
	}
	b.Inspections = append(b.Inspections, i)
}

// isInspection tells whether a line says how an inspection went.
func isInspection(l *note.Line) bool {
	return l.Kind.Key == "inspection" || l.Kind.Key == "checks" && l.Name == RoadworthinessTest && l.Head != "done"
}

const foundKey = "found"

// ByInspection tells whether the act is one of an inspection, not of an item.
func (it *Item) ByInspection() bool { return it.Line.Kind != note.Snag }

// inspectionItems are a session's inspection and what it found; they come before the items of the body.
func inspectionItems(s *Session) []*Item {
	var result, found []*Item
	for _, l := range s.Note.Lines {
		switch {
		case isInspection(l):
			result = append(result, &Item{Session: s, Item: &note.Item{Line: l}})
		case l.Kind.Key == foundKey:
			found = append(found, &Item{Session: s, Item: &note.Item{Line: l}, ID: l.Name, IDSpan: l.NameSpan()})
		}
	}
	return append(result, found...)
}

// inspected: one that passed clears what inspections opened and this one does not list, but no advisory.
func (f *judge) inspected(it *Item) {
	if it.Head != "passed" || denied(it.Line) {
		return
	}
	f.inspections = slices.DeleteFunc(f.inspections, func(id string) bool {
		s := f.byID[id]
		if !s.open || !s.inspected {
			return true
		}
		again := slices.ContainsFunc(it.Session.Note.Lines, func(l *note.Line) bool { return l.Kind.Key == foundKey && l.Name == id })
		ticked := slices.ContainsFunc(it.Session.Note.Items, func(own *note.Item) bool { return own.Ticked && own.ID == id })
		if s.advisory || again || ticked { // the tick below clears it, and says how
			return false
		}
		s.open, s.cleared = false, it.HeadSpan()
		f.act(fact.Cleared, &Item{Session: it.Session, Item: it.Item, ID: id, IDSpan: it.IDSpan}, s.standing)
		return true
	})
}

// found takes in one thing that an inspection found: it opens a snag, or joins the open one.
func (f *judge) found(it *Item) {
	finding := it.Head.(note.Finding)
	known, other := f.byID[it.ID], f.b.taken(it.ID)
	switch {
	case !slices.ContainsFunc(it.Session.Note.Lines, isInspection):
		f.fault(it, source.Fault{Flaw: FoundAlone, Span: it.IDSpan, Word: it.ID})
		return
	case known == nil && other != nil:
		f.fault(it, source.Fault{Flaw: IDTaken, Span: it.IDSpan, Word: it.ID, Why: other.sort, Other: other.span})
		return
	}
	joins := known != nil && known.open
	said := foundWords(it.Words().S, finding.Item)
	next := standing{Standing: fact.Standing{Stage: it.Session.Stage, Words: cmp.Or(said.String(), it.Words().S), Said: said, Private: it.Session.Private}, given: finding.Severity}
	what := fact.Opened
	if joins {
		next, what = known.standing, fact.Remarked
		next.given = max(next.Severity, finding.Severity)
	} else if known != nil {
		next.Own, what = known.Own, fact.Reopened
	}
	if !f.clauses(it, &next) {
		return
	}
	if known == nil {
		known = &judged{}
		f.byID[it.ID] = known
		f.b.identify(it.ID, &identity{sort: snagSort, span: it.IDSpan})
	}
	known.standing, known.advisory = next, finding.Advisory && (known.advisory || !joins)
	if !joins {
		known.open, known.opened, known.inspected = true, it.IDSpan, true
		f.inspections = append(f.inspections, it.ID)
	}
	f.act(what, it, next)
}

// foundWords are the words of the sheet with the item that they come under.
func foundWords(words, item string) speech.Phrase {
	of := speech.Typed(item)
	if title := AnnexTitle(item); title != "" {
		of = speech.Of("%s, %s", item, speech.Term(title))
	}
	switch {
	case item == "":
		return speech.Phrase{} // the words of the sheet alone
	case words == "":
		return speech.Of("(%s)", of)
	}
	return speech.Of("%s (%s)", words, of)
}

// AnnexTitle is what an item of Annex I is about, or ""; letters of reasons behind the number are passed over.
func AnnexTitle(item string) string { return annexTitles[reasons.ReplaceAllString(item, "")] }

func AnnexTitles() []string { return slices.Collect(maps.Values(annexTitles)) }

var reasons = regexp.MustCompile(`\(.*`)

// annexTitles are items of Annex I of Directive 2014/45/EU, in short; from memory.
var annexTitles = map[string]string{
	"0.1": "registration plates", "0.2": "vehicle identification number",
	"1.1.1": "brake pedal pivot", "1.1.2": "pedal condition and travel", "1.1.3": "vacuum pump or compressor", "1.1.6": "parking brake lever",
	"1.1.10": "brake servo and master cylinder", "1.1.11": "rigid brake pipes", "1.1.12": "flexible brake hoses", "1.1.13": "brake linings and pads",
	"1.1.14": "brake drums and discs", "1.1.15": "brake cables, rods and linkages", "1.1.16": "brake actuators", "1.1.17": "load sensing valve",
	"1.2.1": "service brake performance", "1.2.2": "service brake efficiency", "1.4.1": "parking brake performance", "1.4.2": "parking brake efficiency",
	"1.6": "anti-lock braking", "1.8": "brake fluid",
	"2.1.1": "steering gear condition", "2.1.2": "steering gear casing", "2.1.3": "steering linkage", "2.2.1": "steering wheel", "2.2.2": "steering column",
	"2.3": "steering play", "2.4": "wheel alignment", "2.6": "electronic power steering",
	"3.1": "field of vision", "3.2": "glass", "3.3": "mirrors", "3.4": "wipers", "3.5": "washers",
	"4.1.1": "headlamps", "4.1.2": "headlamp alignment", "4.2.1": "position lamps", "4.3.1": "stop lamps", "4.4.1": "direction indicators",
	"4.5.1": "fog lamps", "4.6.1": "reversing lamps", "4.7.1": "plate lamp", "4.11": "wiring", "4.13": "batteries",
	"5.1.1": "axles", "5.1.2": "stub axles", "5.1.3": "wheel bearings", "5.2.1": "wheel hub and fixings", "5.2.2": "wheels", "5.2.3": "tyres",
	"5.3.1": "springs and stabiliser", "5.3.2": "shock absorbers", "5.3.3": "suspension arms and radius arms", "5.3.4": "suspension joints",
	"6.1.1": "chassis or frame", "6.1.2": "exhaust pipes and silencers", "6.1.3": "fuel tank and pipes", "6.1.4": "bumpers and guards", "6.1.6": "coupling",
	"6.1.7": "transmission", "6.1.8": "engine mountings", "6.2.1": "body condition", "6.2.2": "body mounting", "6.2.3": "doors and catches", "6.2.4": "floor",
	"6.2.5": "driver's seat", "6.2.6": "other seats",
	"7.1.1": "belt mounting", "7.1.2": "belts and buckles", "7.1.3": "belt load limiter", "7.1.4": "belt pretensioner", "7.1.5": "airbags", "7.1.6": "restraint systems",
	"7.7": "horn", "7.8": "speedometer", "7.11": "odometer", "7.12": "stability control",
	"8.1.1": "noise", "8.2.1": "emissions, petrol", "8.2.2": "emissions, diesel", "8.4.1": "fluid leaks",
}

func (i *Inspection) Told() string { return pick.Either(denied(i.Line), unclear, i.Line.Head.(string)) }

func (c *CheckLine) Told() string { return pick.Either(c.Denied, unclear, c.Result) }
