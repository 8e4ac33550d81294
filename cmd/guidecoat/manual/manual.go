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
	"sync"
	"unicode"
)

//go:embed *.md
var files embed.FS

// names are the topics, in the order in which somebody new needs them.
var names = []string{
	"start", "commands", "editor", "files", "lines", "money", "surcharge", "time", "parts", "snags", "checks", "inspection", "fasteners", "damage", "readings",
	"card", "forecast", "ahead", "bid", "choices", "papers", "selling", "garage", "private", "photos", "site", "look", "publishing", "programs",
	"keys", "problems", "limits", "speed", "cautions",
}

type Topic struct {
	Name, Title, About string
	Sections           []Section // the first is what stands before any other heading
}

type Section struct {
	Topic, Title string
	Text         string // Markdown, with the heading and without what only the generator reads
}

// Topics reads the manual, once it is asked for: most runs never do.
var Topics = sync.OnceValue(func() (list []Topic) {
	for _, name := range names {
		data, err := files.ReadFile(name + ".md")
		if err != nil {
			panic(err) // a name without its file: no program should be built so
		}
		list = append(list, topicOf(name, string(data)))
	}
	return list
})

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
	if i := slices.IndexFunc(Topics(), func(t Topic) bool { return strings.TrimSuffix(t.Name, "s") == one }); i >= 0 {
		return &Topics()[i]
	}
	return nil
}

// Find returns the sections that hold most of the words, the most telling first, and how many tell about them.
func Find(query string) (found []Section, telling int) {
	type scored struct {
		Section
		held, score int
	}
	var list []scored
	asked := tokens(query)
	if telling := slices.DeleteFunc(slices.Clone(asked), func(w string) bool { return slices.Contains(little, w) }); len(telling) > 0 {
		asked = telling
	}
	for _, t := range Topics() {
		for _, s := range t.Sections {
			x := scored{Section: s}
			for _, w := range asked {
				if n := score(w, s); n > 0 {
					x.held, x.score = x.held+1, x.score+n
				}
			}
			if x.held > 0 {
				list = append(list, x)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b scored) int { return cmp.Or(cmp.Compare(b.held, a.held), cmp.Compare(b.score, a.score)) })
	for i, s := range list {
		if s.held < list[0].held {
			break
		}
		found = append(found, s.Section)
		if i == 0 || s.score >= inHeading*s.held && i < mostTelling {
			telling++
		}
	}
	return found, telling
}

var little = []string{"a", "an", "the", "of", "to", "in", "is", "it", "i", "my", "do", "how", "what", "where", "and", "or", "for", "with", "on", "write"}

// What it counts that a word stands in the heading, is the topic, begins a row, comes up in words, or in an example.
const (
	inHeading, inTopic, leads, inWords, inExample = 1000, 100, 30, 3, 1
	mostTelling                                   = 3
)

// score tells how much a section is about a word. A bare table is for looking up, so sentences go before it.
func score(word string, s Section) (n int) {
	fence, sentences := "", 0
	for i, line := range strings.Split(strings.TrimSpace(s.Text), "\n") {
		if mark := Fence(line); fence == "" {
			fence = mark
		} else if line == fence {
			fence = ""
		}
		if i > 0 && line != "" && line[0] != '|' {
			sentences++
		}
		for j, w := range words(line) {
			switch {
			case !same(word, w):
			case i == 0 && strings.HasPrefix(line, "##") && !strings.Contains(line, "`"):
				n += inHeading
			case i == 0:
				n += inTopic
			case fence != "":
				n += inExample
			case j == 0 && strings.ContainsAny(line[:1], "-|"):
				n += leads
			default:
				n += inWords
			}
		}
	}
	if same(word, s.Topic) {
		n += inTopic
	}
	if sentences == 0 && n > 0 {
		return 1
	}
	return min(n, 2*inHeading-1)
}

func tokens(text string) (list []string) {
	for w := range strings.FieldsFuncSeq(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '-' }) {
		if w = strings.Trim(w, "-"); w != "" {
			list = append(list, w)
		}
	}
	return list
}

// words are the tokens, and behind each that hyphens join its parts.
func words(text string) (list []string) {
	for _, w := range tokens(text) {
		list = append(list, w)
		if parts := strings.Split(w, "-"); len(parts) > 1 {
			list = append(list, parts...)
		}
	}
	return list
}

// same tells whether a word is the one asked for, or begins with it and ends a little otherwise.
func same(asked, word string) bool {
	const short, ending = 4, 3 // letters
	asked = strings.TrimSuffix(asked, "s")
	if len(asked) < short {
		return strings.TrimSuffix(word, "s") == asked
	}
	rest, ok := strings.CutPrefix(word, asked)
	return ok && len(rest) <= ending
}

func Words() (list []string) {
	seen := map[string]bool{}
	for _, t := range Topics() {
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
