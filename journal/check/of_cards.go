package check

import (
	"guidecoat/journal"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofCards = []*Check{
	{
		Name: journal.MissingName, Severity: problem.Error,
		Summary: "a job card that does not name the build, or a garage without a name",
		Explain: "The name heads every page and list. Write `build` at the top of build.md, or `garage` at the top of garage.md.",
		Example: "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\nright|build: Halden Fjord estate\ncurrency: GBP\n---\n",
		Say: func(f source.Fault) (string, string) {
			if f.Span.File.Path == journal.GarageName {
				return "the garage has no \"garage\"", "Write its name, such as \"garage: The old dairy\"."
			}
			return "the job card has no \"build\"", "Write the build's name, such as \"build: Halden Fjord estate\"."
		},
	},
	{
		Name: journal.MissingCurrency, Severity: problem.Error,
		Summary: "a job card or garage that names no currency",
		Explain: "Every figure is in the currency of the build or garage, and nothing can be added up before it is known. " +
			"Sums of the notes are not judged until then.",
		Example: "-- 2026-04-11.md --\nA long day.\n-- build.md --\n---\nbuild: Halden Fjord estate\nright|currency: GBP\n---\n",
		Message: "no \"currency\" is named",
		Help:    "Write a code of ISO 4217, such as \"currency: GBP\".",
	},
	{
		Name: journal.UnknownSetting, Severity: problem.Error,
		Summary: "a setting of the public page that there is not",
		Explain: "A misspelt setting would show what you meant to hide, so it is never guessed. " +
			"Until it is put right nothing is published.",
		Example: onCard("public:\nwrong|  money: total\nright|  money: totals\n"),
		Say:     unknown("public setting"),
	},
	{
		Name: journal.NoAfter, Severity: problem.Error,
		Summary: "a check of the job card that no work makes due",
		Explain: "A check under `due checks` falls due when a part of some system is fitted, so it must say of which. Name one or more systems behind `after`.",
		Example: onCard("due checks:\nwrong|  tow-test: major; because the socket feeds the trailer's brake lamps\n" +
			"right|  tow-test: after electrical; major; because the socket feeds the trailer's brake lamps\n"),
		Message: "{word} does not say after what work it is due",
		Help:    "Write \"after SYSTEM\", such as \"after electrical\".",
	},
	{
		Name: journal.HoldingWithoutTime, Severity: problem.Error,
		Summary: "holding that is paid for nobody knows how long",
		Explain: "What it costs to keep the vehicle counts by the week, so the card has to say how many weeks it will take, " +
			"or how much you work a week. Without either it would count for nothing, and the bid would be too high.",
		Example: onCard("right|weeks: 14 18 26\nholding:\n  storage: 10.00 a week\n"),
		Message: "nothing says for how long {word} is paid",
		Help:    "Write how much you work, such as \"pace: 6h a week\", or how long it takes, such as \"weeks: 14 18 26\".",
	},
	{
		Name: journal.BadVIN, Severity: problem.Error,
		Summary: "a letter that no vehicle identification number has",
		Explain: "By ISO 3779 the letters I, O and Q never stand in the 17 characters, since they look like 1 and 0. " +
			"Read the number again from the vehicle. Older vehicles have shorter numbers, which are not judged.",
		Example: onCard("vehicle:\nwrong|  vin: 0H8GDM9A8KPO42788\nright|  vin: 0H8GDM9A8KP042788\n"),
		Message: "{word} cannot stand in a vehicle identification number",
		Help:    "Look for a 1 or a 0: the letters I, O and Q are never used.",
	},
	nearEquipment,
	{
		Name: journal.FastenerAlone, Severity: problem.Error,
		Summary: "a fastener of the job card that is of no part",
		Explain: "A fastener is outstanding from the fitting of its part on, so the card must say which part it holds. Write `of` and the part's id.",
		Example: besideCard("---\nparts:\n  arm-left: ordered lower arm, left; new\n---\n", "fasteners:\nwrong|  arm-pinch: 60 Nm + 90°; single use\n"+
			"right|  arm-pinch: 60 Nm + 90°; of arm-left; single use\n"),
		Message: "{word} does not say which part it holds",
		Help:    "Write \"of PART\", such as \"of arm-left\".",
	},
	fineTolerance,
	{
		Name: journal.VINCheckDigit, Severity: problem.Information,
		Summary: "a vehicle identification number with another check digit",
		Explain: "On vehicles for North America the ninth character is worked out from all others (49 CFR 565.15), so a slip of the pen shows. " +
			"Elsewhere the ninth character may be anything, and then this means nothing.",
		Example: onCard("vehicle:\nwrong|  vin: 0H8GDM9A3KP042788\nright|  vin: 0H8GDM9A8KP042788\n"),
		Message: "the check digit is {word}, but the other characters ask for {near}",
		Help:    "Read the number again; outside North America the ninth character need not be a check digit.",
	},
	{
		Name: journal.ToolNeedsOver, Severity: problem.Error,
		Summary: "a shared tool that does not say over how many builds",
		Explain: "The price of a tool in garage.md is carried in equal parts by the builds it is used for. " +
			"Say over how many with `over`.",
		Example: `-- garage.md --
---
garage: The old dairy
currency: GBP
tools:
wrong|  - 240.00 impact wrench; on 2026-02-01
right|  - 240.00 impact wrench; over 6 builds; on 2026-02-01
---
`,
		Message: "the tool {word} does not say over how many builds its price is spread",
		Help:    "Write \"; over N builds\".",
	},
	{
		Name: journal.ToolNeedsOn, Severity: problem.Error,
		Summary: "a shared tool that does not say when it was bought",
		Explain: "A tool is carried by the builds that begin on or after the day it was bought. " +
			"Say which day with `on`.",
		Example: `-- garage.md --
---
garage: The old dairy
currency: GBP
tools:
wrong|  - 240.00 impact wrench; over 6 builds
right|  - 240.00 impact wrench; over 6 builds; on 2026-02-01
---
`,
		Message: "the tool {word} does not say when it was bought",
		Help:    "Write \"; on YYYY-MM-DD\".",
	},
}
