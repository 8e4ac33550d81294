package check

import (
	"cmp"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

var ofMeasured = []*Check{
	nearCheckName, deniedResult, nearReading, settlesNothing, settlesLate, nothingBefore, oneSided,
	{
		Name: journal.FoundAlone, Severity: problem.Error,
		Summary: "something found by an inspection that the note does not have",
		Explain: "What stands below `found` is what the sheet of an official inspection lists. Write in the same note how that went, or make it an item of the body if you found it yourself.",
		Example: "---\nright|inspection: failed; by Marl Test Station\nfound:\n  rear-pads: dangerous 1.1.13 right rear down to the metal\n---\n",
		Message: "{word} was found, but the note has no inspection",
		Help:    "Write \"inspection: failed\" or \"inspection: passed\" above it.",
	},
	beforeTheWork,
	{
		Name: journal.LimitsClash, Severity: problem.Error,
		Summary: "limits of a reading that contradict each other",
		Explain: "A reading has one least and one most value, and the least is not above the most. " +
			"Limits come from the maker's data; look them up again.",
		Example: "---\nstage: rear axle\nreadings:\nwrong|  disc-left: 8.7 mm; min 9.0 mm; max 8.0 mm\nright|  disc-left: 8.7 mm; min 8.0 mm; max 9.4 mm\n---\n",
		Message: "{word} clashes with another limit: {why}",
		Help:    "Leave one of the two out, or correct it.",
	},
	estimateBeforeWork,
	nearLimit,
	{
		Name: journal.OtherKindOfUnit, Severity: problem.Error,
		Summary: "a reading that measures another kind of thing than before",
		Explain: "Readings of one name are held against each other and against the limits that were given first, so they measure one kind of thing. " +
			"Give the other measurement a name of its own.",
		Example: twoDays("readings:\n  disc-left: 9.7 mm; min 8.0 mm\n", "readings:\nwrong|  disc-left: 9.7 bar\nright|  disc-left: 0.97 cm\n"),
		Message: "{word} cannot be compared with {near} at {place}",
		Help:    "Give one of the two another name, or correct its unit.",
	},
	secondScan,
	{
		Name: note.BadScan, Severity: problem.Error,
		Summary: "a fault scan without a name or without lines",
		Explain: "A block that begins with the word scan is what one control unit said. " +
			"It needs the unit's name, so that a later scan of the same unit can clear a code, and a line for each code, or `no faults`.",
		Example: "wrong|~~~ scan\nright|~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
		Say:     cannotRead("scan"),
	},
	{
		Name: note.NearScan, Severity: problem.Error,
		Summary: "a block of fault codes whose first line is nearly that of a scan",
		Explain: "A scan is a fenced block that begins with the word scan, in small letters, and the name of the control unit. " +
			"Spelled otherwise it is code like any other, and its faults are outstanding nowhere.",
		Example: "wrong|~~~ Scan abs\nright|~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
		Say: func(f source.Fault) (string, string) {
			return quote(f.Word) + " does not begin a scan, and its fault codes are not read", "Write \"scan " + f.Near[0] + "\" behind the marks that open the block."
		},
	},
	{
		Name: note.StrayCodes, Severity: problem.Warning,
		Summary: "a block of fault codes that does not say which control unit was read",
		Explain: "Fault codes are outstanding only where their block is a scan, so that a later scan of the same control unit can clear them. " +
			"A list of codes that is none says `text` behind the marks that open its block.",
		Example: "wrong|~~~\nright|~~~ scan abs\nC0035 left front wheel speed\n~~~\n",
		Message: "these fault codes are in no scan, and are not outstanding",
		Help:    "Write \"scan\" and the name of the control unit behind the marks that open the block, or \"text\" if it is no scan.",
	},
	codeInWords,
	{
		Name: note.BadCode, Severity: problem.Error,
		Summary: "a line of a scan that is no fault code",
		Explain: "A fault code is a letter B, C, P or U, a digit 0 to 3 and three more digits or letters A to F, by SAE J2012 and ISO 15031-6. " +
			"A code that is misread could hide a fault, so the line is left out.",
		Example: "~~~ scan abs\nwrong|C035 left front wheel speed\nright|C0035 left front wheel speed\n~~~\n",
		Say:     cannotRead("fault code"),
	},
}

// Readings and the odometer.

var nearLimit = &Check{
	Name: "near-limit", Severity: problem.Information,
	Summary: "a reading that is still within its limits, but near to one",
	Explain: "Near is within 10 % of the limit; where there are a least and a most, within 10 % of what lies between them, so that a value " +
		"in the middle is never near. The newest reading of each name counts. What wears will soon be outside: plan for it, or tell the buyer.",
	Example: "---\nstage: rear axle\nreadings:\nwrong|  disc-left: 8.7 mm; min 8.0 mm\nright|  disc-left: 9.7 mm; min 8.0 mm\n---\n",
	Run: func(p *Pass) {
		for _, r := range p.State.Newest() {
			if near := r.Limits.Near(r.Value); near.Some() {
				p.Report(r.Line.HeadSpan(), quote(r.Name)+" is "+r.Value.String()+", "+near.String(), "It counts as within its limits.")
			}
		}
	},
}

var fineTolerance = &Check{
	Name: "fine-tolerance", Severity: problem.Warning,
	Summary: "a torque that is to be held more closely than a torque wrench can",
	Explain: "ISO 6789-1:2017 lets a torque wrench be off by 4 %, and by 6 % up to 10 N·m (from memory). " +
		"Within less nobody can tell whether a fastener is right. Write a wider tolerance, or none for the usual 5 %.",
	Example: besideCard("---\nparts:\n  arm-left: ordered lower arm, left; new\n---\n", "fasteners:\nwrong|  arm-pinch: 60 Nm; of arm-left; ±1%\n"+
		"right|  arm-pinch: 60 Nm; of arm-left; ±4%\n"),
	Run: func(p *Pass) {
		ten, _ := measure.ParseQuantity("10 Nm")
		for _, f := range p.State.Build.Card.Fasteners {
			own := f.Line.Choice("tolerance")
			least := decimal.NewFromInt(4)
			if f.Torque.Compare(ten) <= 0 {
				least = decimal.NewFromInt(6)
			}
			width := f.Max.In(f.Torque.Unit).Sub(f.Torque.Value)
			if own != nil && width.Shift(2).LessThan(f.Torque.Value.Mul(least)) {
				p.Report(own.Span, quote(f.ID)+" is to be held more closely than a torque wrench can", "Write \"±"+least.String()+"%\" or more.")
			}
		}
	},
}

var odometerUnit = &Check{
	Name: "odometer-unit", Severity: problem.Warning,
	Summary: "an odometer in another unit than before",
	Explain: "A vehicle's instrument counts either miles or kilometres, and a slip moves every distance by more than half. " +
		"Where the instrument was changed, say so with `new cluster`.",
	Example: twoDays("odometer: 91252 mi\n", "wrong|odometer: 146,900 km\nright|odometer: 146,900 km; new cluster\n"),
	Run: func(p *Pass) {
		var usual measure.Unit
		var first source.Span
		backwards := map[source.Span]bool{} // which tells of the unit too
		for _, f := range p.State.Build.Faults {
			if f.Flaw == journal.OdometerBackwards {
				backwards[f.Span] = true
			}
		}
		differs := func(q measure.Quantity, at source.Span) {
			if usual != q.Unit && usual != (measure.Unit{}) && !backwards[at] {
				p.Report(at, quote(at.Text())+" is in another unit than "+place(first), "Write it in "+usual.Symbol+", as "+measure.Quantity{Value: q.In(usual).Round(0), Unit: usual}.String()+", or \"; new cluster\" behind the odometer if the instrument was changed.")
			}
		}
		for _, s := range p.State.Build.Sessions {
			if l := s.Note.Line("odometer"); l != nil && s.Odometer != nil {
				if usual == (measure.Unit{}) || l.Has("new cluster") {
					usual, first = s.Odometer.Unit, l.HeadSpan()
				}
				differs(*s.Odometer, l.HeadSpan())
			}
			for _, l := range s.Note.Lines {
				if at, ok := note.Arg[measure.Quantity](l, "at"); ok && !p.leftOut(l) {
					differs(at, l.Clause("at").Arg.Whole())
				}
			}
		}
	},
}

var odometerJump = &Check{
	Name: "odometer-jump", Severity: problem.Warning,
	Summary: "an odometer that is far ahead of the note before, or shows thousandths",
	Explain: "No vehicle in the workshop is driven 50,000 miles or kilometres between two notes, and no instrument shows thousandths of one: " +
		"146.900 km is less than a hundred and fifty. A digit too many makes every later reading go backwards, and settles checks that ask for a distance.",
	Example: "-- 2026-04-11.md --\n---\nodometer: 10010 mi\n---\n-- 2026-04-12.md --\n---\nwrong|odometer: 100100 mi\nright|odometer: 10100 mi\n---\n",
	Run: func(p *Pass) {
		var last *measure.Quantity
		for _, s := range p.State.Build.Sessions {
			if s.Odometer == nil {
				continue
			}
			l := s.Note.Line("odometer")
			if s.Odometer.Value.Exponent() == -3 && s.Odometer.Value.LessThan(thousand) && p.looks(s) {
				typed := l.HeadSpan().Text()
				p.Report(l.HeadSpan(), quote(typed)+" has thousandths", "Write "+strings.Replace(typed, ".", ",", 1)+" if these are thousands.")
			}
			if last != nil && p.looks(s) && !l.Has("new cluster") {
				far := measure.AddDistance(*last, measure.Quantity{Value: decimal.NewFromInt(50_000), Unit: s.Odometer.Unit})
				if s.Odometer.Compare(far) > 0 {
					p.Report(l.HeadSpan(), quote(l.HeadSpan().Text())+" is more than 50,000 "+s.Odometer.Unit.Symbol+" further than "+last.String()+", in the note before", "Count the digits, or write \"; new cluster\" behind it if the instrument was changed.")
				}
			}
			last = s.Odometer
		}
	},
}

// What results of checks do, and do not.

var deniedResult = &Check{
	Name: "denied-result", Severity: problem.Warning,
	Summary: "a result or a tick whose next words take it back",
	Explain: "Words such as `no`, `tomorrow`, `result pending` and `on one side only`, right behind the result, take it back: the check settles nothing. " +
		"A check that found a fault has failed, even where it was carried out.",
	Example: "---\nchecks:\nwrong|  fume-check: done, weeps at the left union\nright|  fume-check: failed, weeps at the left union\n---\n",
	Run: func(p *Pass) {
		look := func(l *note.Line, name string) {
			if words := journal.Denial(l, l.Words()); words.S != "" {
				p.Report(words.Whole(), quote(name)+" settles nothing: these words take back that it was "+l.HeadSpan().Text(),
					"Write \"failed\" if it did not pass, the line when it is done, or \"; sure\" at the end if it counts as it stands.")
			}
		}
		for _, a := range p.State.Build.Acts {
			if !a.Ticked || !p.looks(a.Session) {
				continue
			}
			if words := journal.Denial(a.Line, a.Item.Words()); words.S != "" {
				p.Report(words.Whole(), "the tick clears this, and these words take back that it is done", "Leave the box empty while it is not, or write \"; sure\" at the end.")
			}
		}
		for _, c := range p.State.Build.Checks {
			look(c.Line, c.Name)
		}
		for _, i := range p.State.Build.Inspections {
			if i.Line.Name == "" { // one that is a check was looked at
				look(i.Line, i.Line.Kind.Key)
			}
		}
	},
}

// refitted begins an example with work that makes checks due.
const refitted = "---\nstage: rear axle\nodometer: 91252 mi\nparts:\n  rear-beam: refitted rear axle beam\n"

var settlesNothing = &Check{
	Name: "settles-nothing", Severity: problem.Warning,
	Summary: "a check that settles nothing: too soon, or only done after it failed",
	Explain: "Wheel fixings, for one, are torqued again only after some distance, since they settle as they are driven. " +
		"A check before that distance, or one for which nobody can tell, stays outstanding. So does one that failed, until it has passed.",
	Example: refitted + "checks:\nwrong|  wheel-retorque: done; at 91260 mi\nright|  wheel-retorque: done; at 91310 mi\n---\n",
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if !c.Late {
				p.Report(c.At, quote(c.Name)+" settles nothing: "+c.Why, c.Help)
			}
		}
	},
}

var settlesLate = &Check{
	Name: "settles-late", Severity: problem.Information,
	Summary: "a check that settles what was due, but after more distance than it should",
	Explain: "Some checks are to be carried out between two distances: sooner they tell nothing, and later the vehicle was driven on what nobody " +
		"had looked at. A late one counts; the record tells that it was late.",
	Example: refitted + "checks:\nwrong|  wheel-retorque: done; at 91400 mi\nright|  wheel-retorque: done; at 91300 mi\n---\n",
	Run: func(p *Pass) {
		for _, c := range p.all().ChecksToTell {
			if c.Late {
				p.Report(c.At, quote(c.Name)+" was carried out "+c.Why, "It counts, and the record tells that it was late.")
			}
		}
	},
}

var nothingBefore = &Check{
	Name: "nothing-before", Severity: problem.Warning,
	Summary: "work on high voltage, restraints or structure without what has to come before it",
	Explain: "Some work can kill whoever does it, or others: high voltage is isolated and proved dead first, an airbag's battery is off for as long as its maker " +
		"says, and before welding the battery is off, the fuel safe and somebody watching for fire. Write that check in the same note or in an earlier one of that day. " +
		"Where the work touched nothing of the kind, say `asks for nothing` on the part's line, or `sure` on a line of time.",
	Example: "---\nstage: body\nparts:\n  rail-end-left: refitted rail end, left, welded; system structure\nright|checks:\nright|  weld-ready: done battery off, tank shielded, Pia watched\n---\n",
	Run: func(p *Pass) {
		for _, u := range p.all().Unprepared() {
			message, help := "work on "+u.System+" without "+quote(u.Rule.Name)+" before it", "Write it under \"checks\" in the same note if it was done ("+u.Rule.Does+"), else \"asks for nothing\" or \"sure\" on the line."
			if u.After != nil {
				message = "work on " + u.System + ", and " + quote(u.Rule.Name) + " only comes after it, at " + place(u.After.Line.NameSpan())
			}
			p.Report(u.At, message, help)
		}
	},
}

var beforeTheWork = &Check{
	Name: "before-the-work", Severity: problem.Information,
	Summary: "a check that was carried out before the work that makes it due",
	Explain: "A check settles only what was done before it, in its own session or an earlier one. One from before the work says nothing of " +
		"the work: it has to be carried out again. If it was in fact done afterwards, the date of one of the two notes is wrong.",
	Example: "wrong|-- 2026-04-11.md --\nwrong|---\nwrong|stage: rear axle\nwrong|checks:\nwrong|  alignment: passed\nwrong|---\n-- 2026-04-12.md --\n" +
		refitted + "---\nright|-- 2026-04-13.md --\nright|---\nright|stage: rear axle\nright|checks:\nright|  alignment: passed\nright|---\n",
	Run: func(p *Pass) {
		last := map[string]*journal.CheckLine{}
		for _, c := range p.State.Build.Checks {
			last[c.Name] = c
		}
		for _, s := range p.State.Snags {
			c := last[s.ID]
			if s.Source == fact.FromDue && s.Open && c != nil && c.Result != "failed" && c.Session.Place < s.Session.Place {
				p.Report(c.Line.HeadSpan(), quote(c.Name)+" was carried out before the work that makes it due, at "+place(s.Span), "It is still due: carry it out again, or correct the date of the note.")
			}
		}
	},
}

var oneSided = &Check{
	Name: "one-sided", Severity: problem.Warning,
	Summary: "a value below zero that has a limit on one side only",
	Explain: "An angle such as toe or thrust goes both ways: with a most alone, the worst error to the other side passes. " +
		"Name both limits, with `within A..B`, or with `spec V ±T`.",
	Example: "---\nstage: rear axle\nreadings:\nwrong|  thrust-angle: -0.9 deg; max 0.15 deg\nright|  thrust-angle: -0.1 deg; within -0.15..0.15 deg\n---\n",
	Run: func(p *Pass) {
		limits := map[string]note.Limits{}
		for _, r := range p.State.Build.Readings {
			lim := r.Limits.After(limits[r.Name])
			limits[r.Name] = lim
			one := cmp.Or(lim.Min, lim.Max)
			// A temperature is below zero by its scale, and may well have one limit.
			if one == nil || lim.Min != nil && lim.Max != nil || r.Value.Unit.Kind == measure.Temperature {
				continue
			}
			if r.Value.Value.IsNegative() || one.Value.IsNegative() {
				p.Report(r.Line.HeadSpan(), quote(r.Name)+" goes both ways, and has a limit on one side only", "Write both, such as \"within A..B\".")
			}
		}
	},
}
