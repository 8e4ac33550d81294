package note

import (
	"regexp"
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"
)

// BadFinding is the flaw of what an inspection found and nobody can read.
const BadFinding source.Flaw = "bad-finding"

// A Finding is what an inspection's sheet says of one thing, before its words.
type Finding struct {
	Severity Severity // of an advisory: Minor
	Advisory bool
	// Item is its number in Annex I of Directive 2014/45/EU; "" where none is written.
	Item string
}

const advisory = "advisory"

// gradings are the words that a finding begins with.
var gradings = []string{"dangerous", "major", "minor", advisory}

// annexItem matches the form of an item's number, with the letters of its reasons.
var annexItem = regexp.MustCompile(`^[0-9](\.[1-9][0-9]?){1,3}(\([a-z]{1,4}\))*$`)

// readFinding reads "dangerous 1.1.13" at the start of a text; what follows are words.
func readFinding(c context, s string) (any, int, *source.Malformed) {
	word, end, bad := oneOf("", BadFinding, gradings).Read(c, s)
	if bad != nil {
		bad.Why, bad.Help = "it does not begin with how bad it is", "Begin with dangerous, major, minor or advisory."
		return nil, 0, bad
	}
	f := Finding{Severity: SeverityOf(word.(string))}
	if f.Advisory = word == advisory; f.Advisory {
		f.Severity = Minor
	}
	start, _ := trim(s, end, len(s))
	stop := start + wordEnd(s[start:])
	item := strings.TrimRight(s[start:stop], ",:")
	if item == "" || item[0] < '0' || item[0] > '9' || !strings.Contains(item, ".") {
		return f, end, nil
	}
	next, _ := trim(s, stop, len(s))
	if _, isUnit := measure.LookupUnit(s[next : next+wordEnd(s[next:])]); isUnit && strings.Count(item, ".") == 1 {
		return f, end, nil // 1.5 mm is what was measured
	}
	if !annexItem.MatchString(item) {
		return nil, 0, &source.Malformed{Start: start, End: start + len(item), Why: "it is no number of an item of Annex I of Directive 2014/45/EU",
			Help: "Write it as on the sheet, such as 1.1.13, or leave it out."}
	}
	f.Item = item
	return f, stop, nil
}
