// Package manual is the manual: topics in Markdown, and how to find a word in them.
// One topic has one subject. Its file begins with a heading and a line that says what
// the topic is about.
package manual

import (
	"cmp"
	"embed"
	"regexp"
	"slices"
	"strings"
	"unicode"
)

//go:embed *.md
var files embed.FS

// names are the topics, in the order in which somebody new needs them.
var names = []string{
	"start", "commands", "files", "lines", "money", "surcharge", "time", "parts", "snags", "checks", "readings",
	"card", "forecast", "bid", "selling", "garage", "private", "photos", "site", "look", "publishing", "programs",
	"keys", "problems", "limits", "speed", "cautions",
}

// A Topic is one file of the manual.
type Topic struct {
	Name, Title, About string
	Sections           []Section // the first is what stands before any other heading
}

// A Section is a heading and what stands below it, up to the next heading.
type Section struct {
	Topic, Title string
	Text         string // Markdown, with the heading and without what only the generator reads
}

// Topics are all topics, in order.
var Topics = func() (list []Topic) {
	for _, name := range names {
		data, err := files.ReadFile(name + ".md")
		if err != nil {
			panic(err) // a name without its file: no program should be built so
		}
		list = append(list, topicOf(name, string(data)))
	}
	return list
}()

var marker = regexp.MustCompile(`(?m)^<!-- .* -->\n+`)

func topicOf(name, text string) Topic {
	t := Topic{Name: name}
	fence := ""
	for line := range strings.Lines(marker.ReplaceAllString(text, "")) {
		if mark := Fence(line); fence == "" {
			fence = mark
		} else if strings.TrimSpace(line) == fence {
			fence = ""
		}
		if heading := strings.TrimLeft(line, "#"); fence == "" && heading != line {
			t.Sections = append(t.Sections, Section{Topic: name, Title: strings.TrimSpace(heading)})
		}
		t.Sections[len(t.Sections)-1].Text += line
	}
	t.Title = t.Sections[0].Title
	_, after, _ := strings.Cut(t.Sections[0].Text, "\n\n")
	about, _, _ := strings.Cut(after, "\n\n")
	t.About = strings.Join(strings.Fields(about), " ")
	return t
}

// Fence returns the marks that open a fenced block, "" where the line opens none.
func Fence(line string) string {
	if mark := line[:len(line)-len(strings.TrimLeft(line, "`"))]; len(mark) >= len("```") {
		return mark
	}
	return ""
}

// Named returns the topic of that name, be it one or many (part, parts), or nil.
func Named(name string) *Topic {
	one := strings.TrimSuffix(strings.ToLower(name), "s")
	if i := slices.IndexFunc(Topics, func(t Topic) bool { return strings.TrimSuffix(t.Name, "s") == one }); i >= 0 {
		return &Topics[i]
	}
	return nil
}

// Find returns the sections that hold all those words, the most telling first, and
// how many of them are about the words rather than naming them by the way.
func Find(query string) (found []Section, telling int) {
	type scored struct {
		Section
		score int
	}
	var list []scored
	asked := words(query)
	for _, t := range Topics {
		for _, s := range t.Sections {
			total := 0
			for _, w := range asked {
				n := score(w, s)
				if n == 0 {
					total = 0
					break
				}
				total += n
			}
			if total > 0 && len(asked) > 0 {
				list = append(list, scored{s, total})
			}
		}
	}
	slices.SortStableFunc(list, func(a, b scored) int { return cmp.Compare(b.score, a.score) })
	for i, s := range list {
		found = append(found, s.Section)
		if i == 0 || s.score >= inHeading*len(asked) && i < mostTelling {
			telling++
		}
	}
	return found, telling
}

// What it counts that a word stands in the heading, is or heads the topic, begins a line
// of a list or table, or only comes up. A section that has it in its heading tells of it.
const (
	inHeading, inTopic, leads, once = 1000, 100, 30, 1
	mostTelling                     = 3
)

// score tells how much a section is about a word; 0 where it does not name it.
func score(word string, s Section) (n int) {
	for i, line := range strings.Split(s.Text, "\n") {
		for j, w := range words(line) {
			switch {
			case !same(word, w):
			case i == 0 && strings.HasPrefix(line, "##"):
				n += inHeading
			case i == 0:
				n += inTopic
			case j == 0 && strings.ContainsAny(line[:1], "-|`"):
				n += leads
			default:
				n += once
			}
		}
	}
	if same(word, s.Topic) {
		n += inTopic
	}
	return min(n, 2*inHeading-1)
}

// words are the words of a text in small letters; a hyphen belongs to a word.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' })
}

// same tells whether a word of the manual is the one asked for, or begins with it and
// ends a little otherwise: photo, photos; reckon, reckoned.
func same(asked, word string) bool {
	const short, ending = 4, 3 // letters
	asked = strings.TrimSuffix(asked, "s")
	if len(asked) < short {
		return strings.TrimSuffix(word, "s") == asked
	}
	rest, ok := strings.CutPrefix(word, asked)
	return ok && (len(rest) <= ending || rest[0] == '-')
}

// Words are the words that the manual can be asked for, each once.
func Words() (list []string) {
	seen := map[string]bool{}
	for _, t := range Topics {
		for _, s := range t.Sections {
			for _, w := range words(s.Text) {
				if !seen[w] && len(w) > 2 {
					seen[w], list = true, append(list, w)
				}
			}
		}
	}
	return list
}
