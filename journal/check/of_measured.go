package check

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
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
		Example: `-- 2026-04-11.md --
---
readings:
  disc-left: 9.7 mm; min 8.0 mm
---
-- 2026-04-12.md --
---
readings:
wrong|  disc-left: 9.7 bar
right|  disc-left: 0.97 cm
---
`,
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

var codeInWords = &Check{
	Name: "code-in-words", Severity: problem.Warning,
	Summary: "a fault code that stands in words alone",
	Explain: "Fault codes are outstanding only in a scan, so that a later scan of the same control unit can clear them. " +
		"A code that some scan of the build holds may be told of in words.",
	Example: "wrong|The fault code C0035 was stored.\nright|~~~ scan abs\nright|C0035 left front wheel speed\nright|~~~\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, at := range toldCodes(w.note) {
				code := at.Text()
				holds := func(c note.Code) bool { return strings.HasPrefix(c.Code, code) }
				if !slices.ContainsFunc(p.State.Build.Scans, func(s *journal.Scan) bool { return slices.ContainsFunc(s.Codes, holds) }) {
					p.Report(at, "the fault code "+quote(code)+" is in words alone, and is not outstanding", "Write it into a block that begins with \"```scan engine\", or names another control unit.")
				}
			}
		}
	},
}

var faultCode = regexp.MustCompile(`(?:[Ff]ault|[Tt]rouble|[Ee]rror) codes?:? ([PBCU][0-3][0-9A-F]{3})\b`)

// toldCodes are the codes that the words of a body call fault codes, but for those of its items, which are outstanding.
func toldCodes(n *note.Note) (list []source.Span) {
	body := n.BodyStart()
	if !bytes.Contains(n.File.Data[body:], []byte(" code")) { // which takes less time to tell
		return nil
	}
	for _, at := range faultCode.FindAllSubmatchIndex(n.File.Data[body:], -1) {
		if code := n.File.Span(body+at[2], body+at[3]); !slices.ContainsFunc(n.Items, func(it *note.Item) bool { return it.At <= int(code.Start) && int(code.Start) < it.End }) {
			list = append(list, code)
		}
	}
	return list
}
