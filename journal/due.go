package journal

import (
	"fmt"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
)

// A DueRule is one row of the table of checks due: work on one of its systems makes
// the check due.
type DueRule struct {
	Name     string
	After    []string // systems
	Severity note.Severity
	// Distance is how far the vehicle must have been driven between the work and
	// the check; nil where it may be done at once.
	Distance *measure.Quantity
	Miles    *measure.Quantity // the same said in round miles, where it is
	Because  string
	Source   string // where the rule or its figure is published, or that it is common practice
}

const commonPractice = "common practice, no source"

// builtIn is the table of checks due.
var builtIn = []DueRule{
	{Name: "alignment", After: []string{"steering", "suspension"}, Severity: note.Major,
		Because: "the wheels no longer point where they did", Source: commonPractice},
	{Name: "wheel-retorque", After: []string{"wheels", "brakes", "steering", "suspension"}, Severity: note.Major, Distance: distance("50 km"), Miles: distance("30 mi"),
		Because: "wheel fixings settle over the first miles", Source: "common practice; BS AU 50-2.7a:1995, followed by 2.7b:2017, asks it of commercial vehicles after 40 to 80 km (25 to 50 miles) or 30 minutes at rest"},
	{Name: "brake-test", After: []string{"brakes"}, Severity: note.Dangerous,
		Because: "nobody knows that they hold until they have held", Source: commonPractice},
	{Name: "restraint-scan", After: []string{"restraints"}, Severity: note.Dangerous,
		Because: "a fault in a belt or airbag circuit shows only in its control unit", Source: commonPractice},
	{Name: "leak-check", After: []string{"cooling", "fuel", "brakes"}, Severity: note.Major,
		Because: "a joint that was opened can weep", Source: commonPractice},
	{Name: "lamp-aim", After: []string{"lighting", "structure"}, Severity: note.Major,
		Because: "the beam moves with the lamp and with what it is bolted to", Source: commonPractice},
	{Name: "structure-measure", After: []string{"structure"}, Severity: note.Dangerous,
		Because: "a shell that looks straight can still be out at its datum points", Source: commonPractice},
	{Name: "insulation-test", After: []string{"high-voltage"}, Severity: note.Dangerous,
		Because: "a damaged insulation can put the body at high voltage", Source: "UN R100: 100 Ω/V DC and 500 Ω/V AC at least; when to test is common practice"},
}

func distance(text string) *measure.Quantity {
	q, _ := measure.ParseDistance(text)
	return &q
}

// Far words the distance: "50 km (30 mi)".
func (r DueRule) Far() string {
	if r.Miles == nil {
		return r.Distance.String()
	}
	return r.Distance.String() + " (" + r.Miles.String() + ")"
}

// BuiltInDueRules are the rows that hold for every build.
func BuiltInDueRules() []DueRule { return builtIn }

// DueRules are the rows that hold for this build: the built-in ones, those of
// which the card has one of the same name replaced, then the card's.
func (b *Build) DueRules() []DueRule {
	var rules []DueRule
	own := map[string]bool{}
	for _, r := range b.Card.DueRules {
		own[r.Name] = true
	}
	for _, r := range builtIn {
		if !own[r.Name] {
			rules = append(rules, r)
		}
	}
	return append(rules, b.Card.DueRules...)
}

// ManualDueRules returns the table of the built-in checks due, in Markdown.
func ManualDueRules() string {
	var b strings.Builder
	b.WriteString("| work on | makes due | severity | because | source |\n|---|---|---|---|---|\n")
	for _, r := range builtIn {
		name := "`" + r.Name + "`"
		if r.Distance != nil {
			name += ", at least " + r.Far() + " later"
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", strings.Join(r.After, ", "), name, r.Severity, r.Because, r.Source)
	}
	return b.String()
}
