package check

import (
	"cmp"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"slices"
	"strings"
)

var ofLines = []*Check{
	{
		Name: note.UnknownClause, Severity: problem.Error,
		Summary: "words behind a semicolon that such a line does not have",
		Explain: "Behind a semicolon a line expects one of its own keywords, such as `from` or `for`. " +
			"Something else may be a slip or the rest of a description; a line with one is left out. Write a comma where it is description.",
		Example: "---\nstage: rear axle\nwrong|cost: 6.49 copper grease; form Tidewell Motor Factors\nright|cost: 6.49 copper grease; from Tidewell Motor Factors\n---\n",
		Say: func(f source.Fault) (string, string) {
			if f.Help != "" {
				return "no clause begins with " + quote(f.Word), f.Help
			}
			help := "Write a comma if this is description"
			if f.Other.File != nil { // a comma would make it part of the clause before
				help = "If this is description, put it before the first semicolon, behind a comma"
			}
			if strings.HasPrefix(strings.ToLower(f.Word), "priv") || mostLikely(f.Word, f.Near) == "private" { // a comma would show it
				hide := "This line cannot be hidden by itself: mark the note with \"private: yes\"."
				if slices.Contains(f.Near, "private") {
					hide = "Write \"; private\" alone if the line is to be hidden."
				}
				return "no clause begins with " + quote(f.Word), Nearest(f.Word, f.Near, hide)
			}
			if like := Nearest(f.Word, f.Near, ""); like != "" {
				return "no clause begins with " + quote(f.Word), like + " " + help + "."
			}
			if len(f.Near) > fewWords {
				return "no clause begins with " + quote(f.Word), help + "."
			}
			return "no clause begins with " + quote(f.Word), help + "; otherwise it begins with one of: " + strings.Join(f.Near, ", ") + "."
		},
	},
	{
		Name: note.RepeatedClause, Severity: problem.Error,
		Summary: "a clause that stands twice in a line, or contradicts another",
		Explain: "A line says each thing once: one stage, one supplier, new or used but not both. " +
			"The line is left out, since nobody can tell which of the two is meant.",
		Example: "---\nstage: rear axle\nparts:\nwrong|  rear-beam: needed rear axle beam; new; used\nright|  rear-beam: needed rear axle beam; new\n---\n",
		Say: func(f source.Fault) (string, string) {
			const help = "Leave one of the two out."
			if first := strings.Join(f.Near, ""); first != f.Word {
				return quote(f.Word) + " cannot stand with " + quote(first) + " at " + place(f.Other), help
			}
			return "the clause " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
		},
	},
	{
		Name: note.ClauseValue, Severity: problem.Error,
		Summary: "a clause with its value missing, or with one it does not take",
		Explain: "Some clauses are a word alone, such as `private`; others need something behind them, such as `from`. " +
			"A line with a clause that is neither is left out.",
		Example: "---\nstage: rear axle\nwrong|time: 3h beam out; hands\nright|time: 3h beam out; hands 2\n---\n",
		Say:     func(f source.Fault) (string, string) { return strings.Replace(f.Why, "it", quote(f.Word), 1), f.Help },
	},
	{
		Name: note.ExtraWords, Severity: problem.Error,
		Summary: "words behind a value that stands alone",
		Explain: "Some values have no description behind them, such as a category or a system. " +
			"More words there may hide a missing semicolon, so the line is left out.",
		Example: "---\nstage: body\nparts:\nwrong|  hose: needed brake hose; system brakes front\nright|  hose: needed brake hose, front; system brakes\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := cmp.Or(f.Help, "Put it before the first semicolon if it is description, or leave it out.")
			return "nothing may follow here, but " + quote(f.Word) + " does", help
		},
	},
	{
		Name: note.BadAmount, Severity: problem.Error,
		Summary: "an amount of money that cannot be read",
		Explain: "An amount is a number with a point before the pence, such as 64.00, £64, 64.00 EUR or 3 x 4.99. " +
			"It is never guessed: 12,50 could be twelve pounds fifty or a slip of 1,250. Money back is written under `credit`, not with a minus.",
		Example: "---\nstage: rear axle\nwrong|cost: 12,50 copper grease\nright|cost: 12.50 copper grease\n---\n",
		Say:     cannotRead("amount"),
	},
	{
		Name: note.BadDate, Severity: problem.Error,
		Summary: "a date that cannot be read",
		Explain: "Dates are written year, month, day, such as 2026-04-11, which nobody reads two ways. " +
			"The day must exist. A session with a bad date is left out whole.",
		Example: "---\nwrong|date: 11.04.2026\nright|date: 2026-04-11\n---\n",
		Say:     cannotRead("date"),
	},
	{
		Name: note.BadDuration, Severity: problem.Error,
		Summary: "a length of time that cannot be read",
		Explain: "A line of time begins with how long it took: 3h40, 40m, 3.5h, 3:40, or a clock range such as 19:30-21:15. " +
			"One line holds at most 24 hours.",
		Example: "---\nstage: rear axle\nwrong|time: 3 beam out\nright|time: 3h beam out\n---\n",
		Say:     cannotRead("duration"),
	},
	{
		Name: note.BadDistance, Severity: problem.Error,
		Summary: "a distance that cannot be read",
		Explain: "A distance is a number with km or mi behind it, such as 91252 mi. " +
			"Without the unit a reading may be wrong by more than half.",
		Example: "---\nwrong|odometer: 91252\nright|odometer: 91252 mi\n---\n",
		Say:     cannotRead("distance"),
	},
	{
		Name: note.BadMeasurement, Severity: problem.Error,
		Summary: "a measured value or limit that cannot be read",
		Explain: "A reading is a number and its unit, such as 8.7 mm or 110 N·m, and its limits measure the same kind of thing. " +
			"A value without a unit cannot be held against a limit.",
		Example: "---\nstage: rear axle\nreadings:\nwrong|  disc-left: 8.7; min 8.0 mm\nright|  disc-left: 8.7 mm; min 8.0 mm\n---\n",
		Say:     cannotRead("measurement"),
	},
	{
		Name: note.BadNumber, Severity: problem.Error,
		Summary: "a rate, share, percentage or count that cannot be read",
		Explain: "Tax and confidence are percentages such as 20%, a share is 1/4 or 25%, a rate of exchange a plain number, and hands go from 1 to 9. " +
			"Anything else would change a sum, so the line is left out.",
		Example: "---\nstage: rear axle\nwrong|cost: 80.00 hire of the press; share 5/4\nright|cost: 80.00 hire of the press; share 1/4\n---\n",
		Say:     cannotRead("number"),
	},
	{
		Name: note.BadEstimate, Severity: problem.Error,
		Summary: "an estimate that is not one number or three that rise",
		Explain: "An estimate is best, likely and worst, in that order, set apart by spaces; one number stands for all three. " +
			"Three that do not rise would give a forecast that means nothing.",
		Example: "---\nstage: rear axle\nremaining:\nwrong|  rear axle: 180 120 300\nright|  rear axle: 120 180 300\n---\n",
		Say:     cannotRead("estimate"),
	},
	{
		Name: note.BadFee, Severity: problem.Error,
		Summary: "an auction fee that cannot be read",
		Explain: "A fee is a sum or a percentage of the hammer price, or a row of bands in rising order that ends in one without a limit. " +
			"A gap between the bands would make the advice on bids wrong.",
		Example: onCard("fees:\nwrong|  buyer's fee: 75 to 500, 130 to 400, 12% above\nright|  buyer's fee: 75 to 500, 130 to 1000, 12% above\n"),
		Say:     cannotRead("fee"),
	},
	{
		Name: note.BadFinding, Severity: problem.Error,
		Summary: "what an inspection found, without how bad it is, or with no item of the directive",
		Explain: "A line below `found` begins with dangerous, major, minor or advisory, as the sheet grades it. The number that may follow is the item of Annex I of " +
			"Directive 2014/45/EU, such as 1.1.13; other numbers are words, but for those with a point in them.",
		Example: "---\ninspection: failed\nfound:\nwrong|  rear-pads: serious 1.1.13 right rear down to the metal\nright|  rear-pads: dangerous 1.1.13 right rear down to the metal\n---\n",
		Say:     cannotRead("finding"),
	},
	{
		Name: note.BadID, Severity: problem.Error,
		Summary: "an id that is not lower-case words joined by hyphens",
		Explain: "Parts, snags, checks and readings are called by an id, such as rear-beam, that is spelled the same in every note. " +
			"Small letters, digits and hyphens leave no room for two spellings of one thing.",
		Example: "---\nstage: rear axle\nparts:\nwrong|  Rear Beam: needed rear axle beam\nright|  rear-beam: needed rear axle beam\n---\n",
		Message: "{word} cannot be an id: {why}",
	},
	{
		Name: note.BadYesNo, Severity: problem.Error,
		Summary: "something else where yes or no should stand",
		Explain: "Whether a note is private is never guessed, since the guess would show it to everybody. " +
			"Write yes, or leave the line out.",
		Example: "---\nwrong|private: true\nright|private: yes\n---\n",
		Message: "{word} is neither yes nor no",
	},
	{
		Name: note.UnknownCurrency, Severity: problem.Error,
		Summary: "a currency that ISO 4217 does not list",
		Explain: "A currency is named by its three capital letters in ISO 4217, such as GBP, EUR or SEK. " +
			"Signs such as £ are for amounts only.",
		Example: `-- 2026-04-11.md --
A long day.
-- build.md --
---
build: Halden Fjord estate
wrong|currency: gbp
right|currency: GBP
---
`,
		Message: "no currency called {word}",
	},
	{
		Name: note.UnknownCategory, Severity: problem.Error,
		Summary: "a category of costs or credits that there is not",
		Explain: "Costs are vehicle, fees, transport, parts, paint, consumables, labour, tools or sundries. " +
			"Money back is refund, surcharge, spares or scrap. Without `as` a cost belongs to parts if it is for one, otherwise to sundries.",
		Example: "---\nstage: rear axle\nwrong|cost: 6.49 copper grease; as consumable\nright|cost: 6.49 copper grease; as consumables\n---\n",
		Say:     unknown("category"),
	},
	{
		Name: note.UnknownSale, Severity: problem.Error,
		Summary: "a line of the sale that does not say what became of the money",
		Explain: "Each line of `sale` begins with what happened, then the sum: asked, floor, deposit, kept, agreed, part exchange, paid, claim or returned. " +
			"`returned`, the vehicle that came back, needs no sum.",
		Example: "---\nwrong|sale: depositt 300.00\nright|sale: deposit 300.00\n---\n",
		Say:     unknown("step of a sale"),
	},
	{
		Name: note.UnknownState, Severity: problem.Error,
		Summary: "a state that no part can be in",
		Explain: "A line of a part begins with what became of it: needed, ordered, arrived, fitted or refitted, or returned, cancelled or sold. " +
			"A description comes after that word.",
		Example: "---\nstage: rear axle\nparts:\nwrong|  rear-beam: neded rear axle beam\nright|  rear-beam: needed rear axle beam\n---\n",
		Say:     unknown("state"),
	},
	{
		Name: note.UnknownSystem, Severity: problem.Error,
		Summary: "a system that no vehicle is divided into here",
		Explain: "What a part or snag belongs to decides which checks fall due and what is safety work, so it comes from a fixed list: " +
			"brakes, steering, suspension, wheels, restraints, structure, high-voltage, fuel, lighting, visibility, engine, cooling, exhaust, transmission, electrical, body, paint, interior.",
		Example: "---\nstage: body\nparts:\nwrong|  hose: needed brake hose; system brake\nright|  hose: needed brake hose; system brakes\n---\n",
		Say:     unknown("system"),
	},
	{
		Name: note.UnknownResult, Severity: problem.Error,
		Summary: "a check that says neither passed, failed nor done",
		Explain: "What was checked is worth something only with its outcome. " +
			"Begin the line with passed, failed or done; whatever else there is to say comes after it.",
		Example: "---\nchecks:\nwrong|  alignment: pass by the machine\nright|  alignment: passed by the machine\n---\n",
		Say:     unknown("result"),
	},
}
