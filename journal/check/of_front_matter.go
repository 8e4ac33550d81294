package check

import (
	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
	"path"
	"slices"
	"strings"
)

var ofFrontMatter = []*Check{
	{
		Name: journal.MissingDate, Severity: problem.Error,
		Summary: "a session note without a date",
		Explain: "Every session has its day, in the name of its file or in its front matter. " +
			"Without one nothing in the note can count, so all of it is left out.",
		Example: "-- axle.md --\n---\nright|date: 2026-04-11\nright|stage: rear axle\ntime: 3h40 beam out\n---\n",
		Message: "this note holds work but has no date",
		Help:    "Write \"date: YYYY-MM-DD\", or begin the file's name with the date.",
	},
	{
		Name: journal.DateDiffers, Severity: problem.Error,
		Summary: "a date that differs from the one in the file's name",
		Explain: "One of the two is a slip, and nobody but you can tell which. " +
			"The note is left out until they agree; the name alone is enough.",
		Example: "---\nwrong|date: 2026-04-12\nright|date: 2026-04-11\n---\n",
		Say: func(f source.Fault) (string, string) {
			return quote(f.Word) + " is not the date in the file's name, " + strings.Join(f.Near, ""), "Correct one of the two, or leave this line out."
		},
	},
	futureNote, farFutureNote, yearSlip, dateSlip, sameNote, sameLine,
	{
		Name: note.MisplacedFrontMatter, Severity: problem.Error,
		Summary: "front matter that does not begin with `---` on the first line, or stands below its end",
		Explain: "Read as words of the body its costs would be lost and what is private in it shown, so the note is left out whole; a key with its list further below is left out alone. " +
			"If these are words after all, put an empty front matter, `---` twice, above them.",
		Example: "wrong|----\nright|---\nstage: rear axle\ncost: 12.00 hose\nwrong|----\nright|---\n",
		Message: "front matter stands here, but {why}",
	},
	{
		Name: note.UnclosedFrontMatter, Severity: problem.Error,
		Summary: "front matter that never ends",
		Explain: "A note that opens with --- needs a second --- alone on a line, from the first column, where its front matter ends. " +
			"Without it nobody can tell lines from prose, so the whole note is left out.",
		Example: "---\nstage: rear axle\ntime: 3h40 beam out\nright|---\n\nA long day.\n",
		Message: "the front matter that begins with this \"---\" never ends",
		Help:    "Write \"---\" alone on a line below its last line.",
	},
	{
		Name: note.NotALine, Severity: problem.Error,
		Summary: "a line of front matter that has no place there",
		Explain: "Front matter holds `key: value`, lines below a key, and comments that begin with #. " +
			"A value is one line; prose belongs below the front matter.",
		Example: "---\nstage: rear axle\nwrong|beam out today\nright|# beam out today\n---\n",
		Message: "{word} is no line of front matter: {why}",
		Help:    "Write \"key: value\", or \"- LINE\" below a key, or begin the line with \"#\" if it is a comment.",
	},
	{
		Name: note.RepeatedKey, Severity: problem.Error,
		Summary: "a key that stands twice",
		Explain: "Each key stands once in a note. What belongs to the second one is left out. " +
			"Put all lines below the first, each with a dash.",
		Example: "---\nstage: rear axle\nwrong|time: 2h beam out\nwrong|time: 1h30 cleaning\nright|time:\nright|  - 2h beam out\nright|  - 1h30 cleaning\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := "Leave one of the two out."
			if slices.ContainsFunc(slices.Concat(note.Session, note.Card, note.Garage), func(k *note.Kind) bool {
				return k.Key == f.Word && k.Shape != note.One
			}) {
				help = "Put its lines together below the first."
			}
			return "the key " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
		},
	},
	{
		Name: note.RepeatedName, Severity: problem.Error,
		Summary: "a name that stands twice below one key",
		Explain: "Two lines of one name are often one line too many, so the second is left out. " +
			"Where both are meant, as a part that was ordered and fitted on one day, begin each with a dash.",
		Example: "---\nstage: rear axle\nreadings:\nwrong|  disc-left: 8.7 mm\nwrong|  disc-left: 8.9 mm\nright|  - disc-left: 8.7 mm\nright|  - disc-left: 8.9 mm\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := "Begin both lines with a dash if both are meant."
			if name := path.Base(f.Span.File.Path); name == journal.CardName || name == journal.GarageName {
				help = "Leave one of the two out."
			}
			return "the name " + quote(f.Word) + " stands twice, first at " + place(f.Other), help
		},
	},
	{
		Name: note.TabIndentation, Severity: problem.Error,
		Summary: "a tab at the beginning of a line of front matter",
		Explain: "A tab looks different in every editor and other programs refuse it in front matter. " +
			"Indent with spaces.",
		Example: "---\nstage: rear axle\ntime:\nwrong|\t- 2h beam out\nright|  - 2h beam out\n---\n",
		Message: "a tab stands at the beginning of this line",
		Help:    "Indent with spaces.",
	},
	{
		Name: note.EmptyEntry, Severity: problem.Error,
		Summary: "a key, name or dash with nothing behind it",
		Explain: "Something was going to be written here, and nobody can know what. " +
			"Write it, leave the line out, or put # in front of it until you know.",
		Example: "---\nstage: rear axle\nwrong|cost:\nright|# cost:\n---\n",
		Message: "nothing is written for {word}",
		Help:    "Write what belongs there, or leave the line out.",
	},
	{
		Name: note.UnknownKey, Severity: problem.Error,
		Summary: "a key that such a file does not have",
		Explain: "What stands below an unknown key counts nowhere. " +
			"Spell it as in the manual; what has no key of its own goes into the prose.",
		Example: "---\nstage: rear axle\nwrong|costs: 12.00 copper grease\nright|cost: 12.00 copper grease\n---\n",
		Say: func(f source.Fault) (string, string) {
			if help := inPlaceOf[strings.ToLower(f.Word)]; help != "" && slices.Contains(f.Near, "odometer") {
				return "no key called " + quote(f.Word), help
			}
			return "no key called " + quote(f.Word), Nearest(f.Word, f.Near, "The keys are "+strings.Join(f.Near, ", ")+".")
		},
	},
	{
		Name: note.WrongShape, Severity: problem.Error,
		Summary: "a line written in another shape than its key has",
		Explain: "Some keys have one value behind them, some have a list of lines that begin with a dash, and some have lines that begin with a name. " +
			"A line in another shape is left out.",
		Example: "---\nstage: rear axle\nparts:\nwrong|  - fitted rear axle beam\nright|  rear-beam: fitted rear axle beam; free\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := "Write \"" + f.Word + ": VALUE\" on one line."
			switch {
			case f.Help != "":
				help = f.Help
			case strings.Contains(f.Why, "hyphen"):
				help = "Write \"- \" instead."
			case strings.Contains(f.Why, "indented"):
				help = "Write two spaces before it."
			case strings.Contains(f.Why, "name"):
				help = "Write \"NAME: \" before it."
			case strings.Contains(f.Why, "dash"):
				help = "Write \"- \" before it."
			}
			return "this line does not fit " + quote(f.Word) + ": " + f.Why, help
		},
	},
	notPortable,
	{
		Name: note.StrayQuotes, Severity: problem.Warning,
		Summary: "a value in curly quotes, or in quotes on one side, which stay in it",
		Explain: "A value wholly in straight quotes loses them, as programs that read YAML do. " +
			"Curly ones, which some editors make of them, and one that has no partner are part of the value.",
		Example: "---\nwrong|title: “Beam out”\nright|title: Beam out\n---\n",
		Say: func(f source.Fault) (string, string) {
			if f.Why != "" {
				return "the quote at one end of this value " + f.Why + ", and stays in it", "Leave it out, or write one at both ends."
			}
			return "the quotes of " + quote(f.Word) + " stay in it", "Leave them out, or write straight ones."
		},
	},
	missingSemicolon, halfRead, decimalMinutes, pastMidnight,
	{
		Name: journal.TickWithoutID, Severity: problem.Warning,
		Summary: "an item in plain words that was meant for an open one",
		Explain: "A tick clears a snag by its id and a colon, or one without an id by the words it begins with. " +
			"Otherwise it is an item of its own, and what it was meant for stays open.",
		Example: "---\nstage: body\n---\n- [ ] temporary bonnet-strap: tied down\nwrong|- [x] bonnet-strap latch fitted\nright|- [x] bonnet-strap: latch fitted\n",
		Say: func(f source.Fault) (string, string) {
			if f.Word != "" {
				return "this is an item of its own, and says nothing of " + quote(f.Near[0]), "Write \"" + f.Near[0] + ": " + f.Word + "\"."
			}
			if len(f.Near) > 0 {
				return "this clears nothing: " + quote(f.Near[0]) + " stays open", "Write \"- [x] " + f.Near[0] + ": \" and what was done."
			}
			return "this clears nothing: no open item without an id begins with these words",
				"Begin it with the words of the item, or with a kind such as \"job\" if it was opened and cleared today."
		},
	},
	deceptiveCharacter,
	{
		Name: journal.UnknownStage, Severity: problem.Error,
		Summary: "a stage that the job card does not list",
		Explain: "Time, money and snags are added up by stage, so a stage must be spelled exactly as on the job card. " +
			"A line that names another is left out; a note whose own stage is unknown keeps its lines, unstaged.",
		Example: "---\nwrong|stage: rear axel\nright|stage: rear axle\n---\n",
		Say: func(f source.Fault) (string, string) {
			help := Nearest(f.Word, f.Near, "The stages are listed in build.md.")
			if mostLikely(f.Word, f.Near) == "" && len(f.Near) > 0 && len(f.Near) <= fewWords {
				help = "Choose from " + strings.Join(f.Near, ", ") + ", or list it in build.md."
			}
			return "no stage called " + quote(f.Word) + disguise(f), help
		},
	},
	{
		Name: journal.SimilarStage, Severity: problem.Warning,
		Summary: "two stages that differ by a letter or two",
		Explain: "Where the job card lists no stages every stage that a note names is taken as it is spelled, and its costs are counted apart. " +
			"List the stages in build.md, each once, and a slip becomes an error.",
		Example: besideCard("---\nstage: rear axle\n---\n-- 2026-04-12.md --\n---\nwrong|stage: rear axel\nright|stage: rear axle\n---\n", ""),
		Say: func(f source.Fault) (string, string) {
			if f.Help != "" {
				return "the stage " + quote(f.Word) + " is close to " + quote(f.Near[0]), f.Help
			}
			return "the stage " + quote(f.Word) + " is new, and close to " + quote(strings.Join(f.Near, "")), "Nearest: " + quote(strings.Join(f.Near, "")) + ". Spell both the same, or list the stages in build.md."
		},
	},
	{
		Name: journal.OdometerBackwards, Severity: problem.Warning,
		Summary: "an odometer that reads less than before",
		Explain: "A buyer will ask about a reading that goes backwards. " +
			"Mostly it is a slip; where the instrument was changed, say so with `new cluster`.",
		Example: twoDays("odometer: 91252 mi\n", "wrong|odometer: 91225 mi\nright|odometer: 12 mi; new cluster\n"),
		Say: func(f source.Fault) (string, string) {
			help := "Write \"; new cluster\" behind it if the instrument was changed."
			if f.Help != "" {
				help = f.Help
			} else if unit := unitOf(f.Why); unit != unitOf(f.Word) && wholeDigits(f.Word)+1 >= wholeDigits(f.Why) {
				help = "Write it in " + unit + ", or \"; new cluster\" behind it if the instrument was changed."
			} else if wholeDigits(f.Word) < wholeDigits(f.Why) {
				help = "A digit may be missing, or else write \"; new cluster\" behind it if the instrument was changed."
			}
			return quote(f.Word) + " is less than " + f.Why + " at " + place(f.Other), help
		},
	},
	odometerUnit,
	odometerJump,
}

const (
	pictureHelp = "A picture stands in the body, as in ![what it shows](photos/beam.jpg), or on a line of parts or checks as \"; photo FILE\"."
	scanHelp    = "Write a block in the body that opens with three backticks, the word scan and the control unit, such as ```scan abs, and a line for each code."
	itemHelp    = "Write an item in the body, such as \"- [ ] job door-seal: lets water in\"."
)

// inPlaceOf is what keys stand for that no session has.
var inPlaceOf = map[string]string{
	"photos": pictureHelp, "photo": pictureHelp, "pictures": pictureHelp, "picture": pictureHelp, "images": pictureHelp,
	"codes": scanHelp, "code": scanHelp, "fault codes": scanHelp, "faults": scanHelp, "dtc": scanHelp, "dtcs": scanHelp, "scan": scanHelp, "scans": scanHelp,
	"todo": itemHelp, "to do": itemHelp, "snags": itemHelp, "jobs": itemHelp, "tasks": itemHelp, "temporary": itemHelp,
	"notes": "Words stand below the closing \"---\".", "note": "Words stand below the closing \"---\".", "remarks": "Words stand below the closing \"---\".",
	"supplier": "Write it on the line of cost, as in \"12.00 hose; from Tidewell\".",
	"receipts": "Write it on the line of cost, as in \"12.00 hose; receipt 20411\".",
	"torque":   "Write it under \"readings\", as in \"wheel-bolts: 110 Nm\".",
}

func unitOf(distance string) string { return distance[strings.LastIndexByte(distance, ' ')+1:] }

// wholeDigits counts the digits of a distance before its point.
func wholeDigits(distance string) int {
	whole := strings.TrimLeft(distance, "0123456789,")
	return len(strings.ReplaceAll(strings.TrimSuffix(distance, whole), ",", ""))
}
