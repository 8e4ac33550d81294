package check

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"guidecoat/journal"
	"guidecoat/journal/near"
	"guidecoat/journal/pick"
	"guidecoat/journal/source"
)

// How checks speak: in messages, in help, and in their pages.

// longestQuote is how many characters of what was typed a message repeats; the line is printed below.
const longestQuote = 60

// quote puts what somebody typed in quotes, cut short where it is long.
func quote(s string) string {
	if utf8.RuneCountInString(s) > longestQuote {
		s = string([]rune(s)[:longestQuote]) + "…"
	}
	return "\"" + strings.ReplaceAll(s, "\n", `\n`) + "\"" // a message is one line
}

// disguise says which letter of a word only looks like a Latin one.
func disguise(f source.Fault) string {
	if latin, first := near.Latin(f.Word); first != 0 && slices.Contains(f.Near, latin) {
		return fmt.Sprintf(", in which U+%04X only looks like a Latin letter", first)
	}
	return ""
}

// place is where something stands, for a message about another place.
func place(at source.Span) string {
	p := at.Begin()
	return fmt.Sprintf("%s:%d:%d", at.File.Path, p.Line, p.Column)
}

// fewWords is how many words to choose from are short enough to be listed always.
const fewWords = 9

// Choose is help for a word that is none of a list: the nearest, and all where they are few.
func Choose(word string, from []string) string {
	all := "Choose from " + strings.Join(from, ", ") + "."
	if len(from) <= fewWords {
		return Nearest(word, from, all)
	}
	return cmp.Or(Nearest(word, from, ""), all)
}

// Nearest offers the word that was probably meant, then says the rest.
func Nearest(word string, from []string, rest string) string {
	if n := mostLikely(word, from); n != "" {
		return strings.TrimSpace(nearestIs + n + "\". " + rest)
	}
	if longer := pick.Where(from, func(w string) bool { return near.IsMeant(word, w) }); len(longer) > 0 {
		return strings.TrimSpace("Write \"" + strings.Join(longer, "\" or \"") + "\". " + rest)
	}
	return rest
}

const (
	nearestIs = "Nearest: \""
	deleteIt  = "Delete it."
)

// sameMeaning are words of the trade that people write for those of the notes.
var sameMeaning = map[string]string{
	"mileage": "odometer", "milage": "odometer", "miles": "odometer", "odo": "odometer", "km": "odometer", "kilometres": "odometer",
	"hours": "time", "expenses": "cost", "spent": "cost", "refunds": "credit", "measurements": "readings",
	"delivered": "arrived", "received": "arrived", "got": "arrived", "bought": "ordered", "installed": "fitted", "mounted": "fitted",
	"bent": "needed", "broken": "needed", "cracked": "needed", "lights": "lighting", "lamps": "lighting", "lamp": "lighting",
	"second-hand": "used", "secondhand": "used", "refurbished": "reconditioned", "remanufactured": "reconditioned", "oem": "genuine", "aftermarket": "pattern",
}

// begun is the only word that begins with one of some length: need, consum, priv.
func begun(word string, from []string) string {
	const least = 3
	word = strings.ToLower(strings.TrimRight(word, "."))
	begins := func(w string) bool {
		return len(word) >= least && strings.HasPrefix(w, word) && !strings.HasPrefix(w, word+" ")
	}
	i := slices.IndexFunc(from, begins)
	if i < 0 || slices.ContainsFunc(from[i+1:], begins) {
		return ""
	}
	return from[i]
}

// mostLikely is the nearest word, rather one as long as the word itself: swapped letters are the commonest slip.
func mostLikely(word string, from []string) string {
	best := near.Nearest(word, from)
	length := utf8.RuneCountInString(word)
	if meant := cmp.Or(sameMeaning[strings.ToLower(word)], begun(word, from)); best == "" && slices.Contains(from, meant) {
		return meant
	}
	if best == "" || utf8.RuneCountInString(best) == length {
		return best
	}
	alike := pick.Where(from, func(w string) bool { return utf8.RuneCountInString(w) == length })
	slips := near.Distance(word, best, 2)
	if n := near.Nearest(word, alike); n != "" && near.Distance(word, n, slips) == slips {
		return n
	}
	return best
}

// fill puts {word}, {why}, {near}, {nearest} (the sentence that offers it) and {place} of a fault into a text.
func fill(text string, f source.Fault) string {
	before, rest, found := strings.Cut(text, "{")
	if !found {
		return text
	}
	name, rest, _ := strings.Cut(rest, "}")
	switch name {
	case "word":
		before += quote(f.Word)
	case "why":
		before += f.Why
	case "near":
		before += quote(strings.Join(f.Near, ""))
	case "nearest":
		return before + Nearest(f.Word, f.Near, fill(rest, f))
	case "place":
		before += place(f.Other)
	}
	return before + fill(rest, f)
}

// unknown says that a word is none of a list of such things.
func unknown(thing string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		if f.Word == "" {
			return "nothing is written where a " + thing + " should stand", Choose(f.Word, f.Near)
		}
		return "no " + thing + " called " + quote(f.Word), cmp.Or(f.Help, Choose(f.Word, f.Near))
	}
}

// cannotRead says why a value could not be read.
func cannotRead(what string) func(source.Fault) (message, help string) {
	return func(f source.Fault) (string, string) {
		at := ""
		if f.Word != "" {
			at = " at " + quote(f.Word)
		}
		return "cannot read the " + what + at + ": " + f.Why, f.Help
	}
}

// width is how many columns explanations take on a terminal.
const width = 80

// About says what a check finds, why it matters, and shows it wrong and right, for 80 columns.
func (c *Check) About() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n", c.Name, c.Severity, wrap(c.Summary), wrap(c.Explain))
	bad, good := c.Examples()
	fmt.Fprintf(&b, "\nWrong:\n\n%s\nRight:\n\n%s", indent(bad), indent(good))
	return b.String()
}

// AboutNamed is that of the check of that name, of the notes or due after work; "" where there is none.
func AboutNamed(name string) string {
	if c := Named(name); c != nil {
		return c.About()
	}
	return AboutDue(name)
}

// AboutAll returns the list of all checks, one a line.
func AboutAll() string {
	longest := len(slices.MaxFunc(All, func(a, b *Check) int { return cmp.Compare(len(a.Name), len(b.Name)) }).Name)
	var b strings.Builder
	for _, c := range All {
		fmt.Fprintf(&b, "%-*s  %-11s  %s\n", longest, c.Name, c.Severity, c.Summary)
	}
	return b.String()
}

// AboutDue says of a check that work makes due after which work, why, and who says so.
func AboutDue(name string) string {
	var b strings.Builder
	for _, r := range journal.BuiltInDueRules() {
		if r.Name != name {
			continue
		}
		due, severity := "Due after ", r.Severity.String()
		if r.Before {
			due, severity = "Asked for before ", "a warning"
		}
		if due += r.When(); r.Far != nil {
			due += ", " + r.Later()
		}
		if r.Does != "" {
			due += ". What is looked at: " + r.Does
		}
		fmt.Fprintf(&b, "%s (%s)\n%s\n\n%s\n%s\n", r.Name, severity, wrap(due+"."), wrap("Why: "+r.Because+"."), wrap("Source: "+r.Source+"."))
	}
	return b.String()
}

func wrap(s string) string {
	text, line := "", ""
	for word := range strings.FieldsSeq(s) {
		switch longer := line + " " + word; {
		case line == "":
			line = word
		case utf8.RuneCountInString(longer) <= width:
			line = longer
		default:
			text, line = text+line+"\n", word
		}
	}
	return text + line
}

// filled matches a line, as far as there is something in it.
var filled = regexp.MustCompile(`(?m)^.*\S`)

func indent(s string) string { return filled.ReplaceAllString(s, "    $0") }
