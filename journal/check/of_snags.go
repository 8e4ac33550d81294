package check

import (
	"cmp"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofSnags = []*Check{
	{
		Name: note.NearItem, Severity: problem.Error,
		Summary: "a line that is nearly a task-list item",
		Explain: "A task-list item begins with a dash and a box with nothing but a space or an x in it. " +
			"In Markdown anything else is plain words, and what is outstanding would be forgotten.",
		Example: "---\nstage: rear axle\n---\nwrong|- TODO tow-socket: rewire it\nright|- [ ] job tow-socket: rewire it\n",
		Message: "{word} is no task-list item",
		Help:    "Begin it with \"- [ ] \" if it is open, \"- [x] \" if it is done, or with \"\\[\" if these are plain words.",
	},
	{
		Name: note.NearKind, Severity: problem.Error,
		Summary: "a word a letter or two from a kind of snag",
		Explain: "A snag may begin with temporary, job, inspect, decide or recheck, or with again. " +
			"A slip would make it an ordinary job, and a temporary fix would be forgotten.",
		Example: "---\nstage: rear axle\n---\nwrong|- [ ] temporay exhaust-hanger: hung on wire\nright|- [ ] temporary exhaust-hanger: hung on wire\n",
		Message: "no kind of snag called {word}",
		Help:    "Nearest: {near}. Write a comma instead of the colon if these are plain words.",
	},
	{
		Name: journal.NearID, Severity: problem.Error,
		Summary: "an id a letter or two from a known one",
		Explain: "Without a kind before it, the item may be a remark on a known snag with a slip in its id, or a new snag. " +
			"Spell the id as before, or begin with a kind such as `job` if it is new.",
		Example: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\nwrong|- [ ] exhaust-hangar: the rubber is ordered\nright|- [ ] exhaust-hanger: the rubber is ordered\n",
		Message: "no snag called {word}",
		Help:    "{nearest}Begin with a kind, such as \"job\", if it is a new one.",
	},
	{
		Name: journal.UnknownSnag, Severity: problem.Error,
		Summary: "a snag that is cleared or opened again, but was never opened",
		Explain: "What a tick clears must have been opened under the same id before. " +
			"With a slip in the id the snag itself would stay open.",
		Example: "---\nstage: rear axle\n---\n- [ ] temporary exhaust-hanger: hung on wire\nwrong|- [x] exhaust-rubber: fitted\nright|- [x] exhaust-hanger: rubber fitted\n",
		Say: func(f source.Fault) (string, string) {
			if help, ok := settledOtherwise[f.Why]; ok {
				return quote(f.Word) + " is a " + f.Why + ", which no tick clears", cmp.Or(f.Help, help)
			}
			return "no snag called " + quote(f.Word), Nearest(f.Word, f.Near, "Write a kind before it, such as \"job\", if it was opened and cleared today.")
		},
	},
	{
		Name: journal.UnknownWaitsFor, Severity: problem.Error,
		Summary: "a snag that waits for something that there is not",
		Explain: "A snag waits for a part or for another snag, named by its id. " +
			"One that waits for a slip of the pen would wait for ever.",
		Example: `---
stage: rear axle
parts:
  exhaust-rubber: ordered hanger rubber
---
wrong|- [ ] temporary exhaust-hanger: hung on wire; waits for exhaust-ruber
right|- [ ] temporary exhaust-hanger: hung on wire; waits for exhaust-rubber
`,
		Message: "no part or snag called {word}",
		Help:    "{nearest}Declare the part under \"parts\", or open the snag, in any note.",
	},
	{
		Name: journal.WaitsInCircle, Severity: problem.Error,
		Summary: "snags that wait for each other",
		Explain: "If each of them waits for the next one round, none can ever be begun. " +
			"Take out the wait that is not needed.",
		Example: `---
stage: rear axle
---
- [ ] job arch-paint: paint the arch; waits for arch-seal
wrong|- [ ] job arch-seal: seal the seam; waits for arch-paint
right|- [ ] job arch-seal: seal the seam
`,
		Say: func(f source.Fault) (string, string) {
			const help = "Take out the wait that is not needed."
			own := strings.Join(f.Near, "")
			if own == f.Word {
				return quote(own) + " waits for itself", help
			}
			return quote(own) + " cannot wait for " + quote(f.Word) + ", which waits for it", help
		},
	},
	{
		Name: journal.OpenedTwice, Severity: problem.Error,
		Summary: "a snag that is opened while it is open",
		Explain: "Two snags under one id would be cleared by one tick. " +
			"Leave the kind out if this is a remark on the first, or choose another id if it is something else.",
		Example: "---\nstage: rear axle\n---\n- [ ] job arch-seal: seal the seam\nwrong|- [ ] job arch-seal: seal the seam on the right too\nright|- [ ] arch-seal: the seam on the right too\n",
		Message: "{word} is already open, since {place}",
	},
	{
		Name: journal.ClearedBeforeOpened, Severity: problem.Error,
		Summary: "a snag that is cleared in an earlier session than it is opened",
		Explain: "Sessions follow each other by date, so something was noted in the wrong one, or a date is wrong. " +
			"The tick is left out.",
		Example: `-- 2026-04-11.md --
wrong|- [x] arch-seal: done
wrong|-- 2026-04-12.md --
- [ ] job arch-seal: seal the seam
right|-- 2026-04-12.md --
right|- [x] arch-seal: done
`,
		Message: "{word} is cleared before it is opened, at {place}",
		Help:    "Check the dates of both notes.",
	},
	{
		Name: journal.ClearedAgain, Severity: problem.Warning,
		Summary: "a tick on a snag that is cleared already",
		Explain: "The second tick changes nothing. " +
			"If the snag had come back, open it with `again` first, so that the record shows it.",
		Example: `-- 2026-04-11.md --
- [ ] job arch-seal: seal the seam
- [x] arch-seal: done
-- 2026-04-12.md --
right|- [ ] again arch-seal: cracked overnight
- [x] arch-seal: done
`,
		Message: "{word} was already cleared, at {place}",
		Help:    "Open it with \"again\" first if it had come back.",
	},
	{
		Name: journal.ReopenedByItself, Severity: problem.Warning,
		Summary: "a cleared snag that is opened without saying again",
		Explain: "The snag is taken as open again. " +
			"Write `again` before the id if that is meant; if it is another snag, it needs an id of its own.",
		Example: `-- 2026-04-11.md --
- [x] job arch-seal: seam sealed
-- 2026-04-12.md --
wrong|- [ ] arch-seal: cracked overnight
right|- [ ] again arch-seal: cracked overnight
`,
		Say: func(f source.Fault) (string, string) {
			return quote(f.Word) + " was cleared, at " + place(f.Other) + ", and is open again", "Write \"again " + f.Word + "\" if that is meant."
		},
	},
	{
		Name: journal.SilentlyCleared, Severity: problem.Warning,
		Summary: "a dangerous snag that is cleared without a word",
		Explain: "A buyer, or you in a year, will want to know what made a danger go away. " +
			"Say what was done and who looked at it; local rules may ask for somebody licensed.",
		Example: "---\nstage: rear axle\n---\n- [ ] job hose-chafed: brake hose rubs on the strut; dangerous\nwrong|- [x] hose-chafed\nright|- [x] hose-chafed: clipped clear, checked at full lock\n",
		Message: "{word} is dangerous and is cleared without a word",
		Help:    "Write what was done behind a colon.",
	},
	{
		Name: journal.TemporaryWithoutID, Severity: problem.Warning,
		Summary: "a temporary fix without an id",
		Explain: "A later note clears a temporary fix by its id. " +
			"Without one it can only be ticked here, where nobody looks again.",
		Example: "---\nstage: rear axle\n---\nwrong|- [ ] temporary: exhaust hung on wire\nright|- [ ] temporary exhaust-hung: exhaust hung on wire\n",
		Say: func(f source.Fault) (string, string) {
			return quote(f.Word) + " has no id to clear it by", "Write an id behind it, such as \"temporary " + strings.Join(f.Near, "") + ":\"."
		},
	},
	{
		Name: journal.DiscloseNotMinor, Severity: problem.Error,
		Summary: "a snag left for the buyer that is more than minor",
		Explain: "Only what does not touch safety may be told to the buyer instead of being mended, and a temporary fix never. " +
			"Snags of safety systems are major unless they say otherwise.",
		Example: "---\nstage: body\n---\nwrong|- [ ] job rail-end: left rail end still bent; major; disclose\nright|- [ ] job door-scratch: scratch under the handle; minor; disclose\n",
		Say: func(f source.Fault) (string, string) {
			if f.Why == "temporary" {
				return "\"disclose\" on a temporary fix", "Mend it for good: a temporary fix cannot be left for the buyer, however minor."
			}
			if f.Word != "" {
				return "\"disclose\" on a snag that is " + f.Why + ", as all of " + quote(f.Word) + " is that says no severity", "Mend it, or write \"minor\" if it does not touch safety."
			}
			return "\"disclose\" on a snag that is " + f.Why, "Mend it, or write \"minor\" if it does not touch safety."
		},
	},
	temporaryInWords,
	disclosedUnseen,
	boxOnCard,
	{
		Name: journal.DueWithoutOdometer, Severity: problem.Warning,
		Summary: "a distance to count, but no odometer reading to count from",
		Explain: "A snag that is due within a distance counts from what the odometer reads in its own note, or else in the newest one before. " +
			"With neither it never falls due.",
		Example: "---\nstage: rear axle\nright|odometer: 146851 km\n---\n- [ ] recheck nuts-torque: torque the wheel nuts again; due 50 km\n",
		Message: "there is no odometer reading to count {word} from",
		Help:    "Write \"odometer: DISTANCE\" in this note.",
	},
}

var settledOtherwise = map[string]string{
	"part":                     "What becomes of a part stands under \"parts\".",
	"check":                    "",
	"reading":                  "A later reading within the limits, under \"readings\", settles it.",
	"paper":                    "Write the paper again below \"papers\", with its new \"until\".",
	"scan":                     "A later scan that no longer lists the code settles it.",
	"fastener":                 "Write under \"fasteners\" how it was tightened.",
	"fired part":               "A new part, fitted, settles it.",
	"surcharge":                "A \"credit\" with \"as surcharge\" settles it.",
	"part that stood in water": "Fit another one, and write what became of this one below \"parts\".",
}

// Items that nobody would see for what they are.

var temporaryInWords = &Check{
	Name: "temporary-in-words", Severity: problem.Warning,
	Summary: "a job whose words begin with temporary",
	Explain: "Only the kind, in front of the id, makes a temporary fix of an item. As a word behind the colon it is description, and " +
		"the fix counts as a minor job that nothing asks about before the sale.",
	Example: "---\nstage: body\n---\nwrong|- [ ] undertray-tie: temporary cable tie\nright|- [ ] temporary undertray-tie: cable tie\n",
	Run: func(p *Pass) {
		for _, a := range p.State.Build.Acts {
			if a.What != fact.Opened || a.Ticked || a.Item.Kind != "" || a.ID == "" || !p.looks(a.Session) {
				continue
			}
			if word := note.SaysTemporary(a.Item.Words()); word.S != "" {
				p.ReportFix(word.Whole(), quote(a.ID)+" is a job here, no temporary fix", "Write \"temporary "+a.ID+":\" if it must not stay.",
					&source.Fix{Span: a.IDSpan.File.Span(int(a.IDSpan.Start), int(word.Whole().End)), Text: "temporary " + a.ID + ":"})
			}
		}
	},
}

var boxOnCard = &Check{
	Name: "box-on-card", Severity: problem.Warning,
	Summary: "an open box on the job card, which is followed nowhere",
	Explain: "What is outstanding is opened in the note of a session, which has a date. On the job card a box is only words: " +
		"no list has it, and the handover knows nothing of it.",
	Example: "-- build.md --\n---\nbuild: Halden Fjord estate\ncurrency: GBP\n---\nwrong|- [ ] rear belt does not latch\n-- 2026-04-11.md --\nLooked it over.\n\nright|- [ ] rear belt does not latch\n",
	Run: func(p *Pass) {
		for _, it := range p.State.Build.Card.Note.Items {
			if !it.Ticked {
				p.Report(it.HeadSpan(), "an open box on the job card is followed nowhere", "Write the line in the note of a session.")
			}
		}
	},
}
