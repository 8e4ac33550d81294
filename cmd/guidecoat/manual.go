package main

import (
	"regexp"
	"strings"

	"guidecoat/cmd/guidecoat/manual"
	"guidecoat/journal/check"
	"guidecoat/journal/pick"

	"github.com/rivo/uniseg"
	"github.com/spf13/cobra"
)

func newManual(w *world) *cobra.Command {
	return &cobra.Command{
		Use:   "manual [TOPIC]",
		Short: "Shows the manual, by topic or by any word.",
		Long: "Shows a topic of the manual, or what the manual says about a word: the sections that explain it first, then where " +
			"else it comes up. Without a word it lists the topics. The name of a check shows what that check finds.",
		Example: "guidecoat manual\nguidecoat manual start\nguidecoat manual surcharge\nguidecoat manual unknown-stage",
		ValidArgsFunction: completeOne(func(*cobra.Command) []string {
			return pick.Map(manual.Topics(), func(t manual.Topic) string { return t.Name + "\t" + t.About })
		}),
		RunE: func(_ *cobra.Command, args []string) error {
			s := newScreen(w.stdout, w.getenv)
			query := strings.ToLower(strings.Join(args, " "))
			switch topic := manual.Named(query); {
			case query == "":
				s.topics()
			case topic != nil:
				for _, section := range topic.Sections {
					s.section(section)
				}
			default:
				if err := s.answer(query); err != nil {
					return err
				}
			}
			return s.flush()
		},
	}
}

func (s *screen) topics() {
	s.say("", "The manual, by topic. \"guidecoat manual start\" shows one; any other word finds where it is explained.")
	s.gap()
	s.list(pick.Map(manual.Topics(), func(t manual.Topic) [2]string { return [2]string{t.Name, t.About} }))
}

func (s *screen) answer(query string) error {
	found, telling := manual.Find(query)
	about := check.AboutNamed(query)
	if about != "" {
		s.b.WriteString(about)
		telling = 0
	} else if len(found) == 0 {
		return wrongUsage(check.Nearest(query, manual.Words(), "See the topics: guidecoat manual"), "the manual has nothing about %q", query)
	}
	for _, section := range found[:telling] {
		s.section(section)
	}
	const most = 8 // other places that are worth naming
	if rest := found[telling:]; len(rest) > 0 {
		s.gap()
		s.heading("It also comes up in")
		s.list(pick.Map(rest[:min(len(rest), most)], func(to manual.Section) [2]string { return [2]string{"guidecoat manual " + to.Topic, to.Title} }))
	}
	return nil
}

var (
	listMark  = regexp.MustCompile(`^(-|\d+\.) `)
	shortCode = regexp.MustCompile("`[^`]{1,30}`")
)

// section prints a section. Markdown reads well as it is, so only the marks of headings and fences go.
func (s *screen) section(section manual.Section) {
	var paragraph []string
	indent := ""
	end := func() {
		if len(paragraph) > 0 {
			s.sayBehind(indent, strings.Join(paragraph, " "))
		}
		paragraph, indent = nil, ""
	}
	s.gap()
	fence := ""
	var rows [][]string
	for line := range strings.SplitSeq(strings.TrimSpace(section.Text), "\n") {
		mark, text := manual.Fence(line), strings.TrimSpace(line)
		if !strings.HasPrefix(line, "|") {
			s.rows(rows)
			rows = nil
		}
		switch {
		case fence != "" && text == fence:
			fence = ""
		case fence != "":
			s.b.WriteString("    " + line + "\n") // never cut: it is there to be copied
		case mark != "":
			end()
			fence = mark
		case strings.HasPrefix(line, "#"):
			s.heading(strings.TrimSpace(strings.TrimLeft(line, "#")))
		case strings.HasPrefix(line, "|"):
			if !strings.HasPrefix(line, "|--") {
				rows = append(rows, cells(line))
			}
		case text == "":
			end()
			s.b.WriteString("\n")
		case listMark.MatchString(line):
			end()
			indent = listMark.FindString(line)
			paragraph = []string{line[len(indent):]}
		default:
			paragraph = append(paragraph, text)
		}
	}
	end()
	s.rows(rows)
}

// sayBehind prints sentences behind a mark. Short code, such as the box of a snag, is not torn apart.
func (s *screen) sayBehind(mark, text string) {
	const noBreak = "\ue000" // of private use, and no space
	text = shortCode.ReplaceAllStringFunc(text, func(code string) string { return strings.ReplaceAll(code, " ", noBreak) })
	for _, line := range wrap(text, s.width-len(mark)) {
		s.b.WriteString(mark + s.cut(strings.ReplaceAll(line, noBreak, " "), s.width-len(mark)) + "\n")
		mark = strings.Repeat(" ", len(mark))
	}
}

func cells(row string) (list []string) {
	for cell := range strings.SplitSeq(strings.ReplaceAll(strings.Trim(row, "| "), `\|`, "\x00"), "|") {
		list = append(list, strings.TrimSpace(strings.ReplaceAll(cell, "\x00", "|")))
	}
	return list
}

// rows prints a table as a list. Where there are many columns, each cell says which it is of.
func (s *screen) rows(rows [][]string) {
	const widest = 26     // of a first column that leaves room beside it
	const manyColumns = 4 // are too many to be told apart by their order
	if len(rows) == 0 {
		return
	}
	heads := rows[0]
	named := len(heads) >= manyColumns
	if named {
		rows = rows[1:]
	}
	var list [][2]string
	left := 0
	for _, r := range rows {
		rest := r[1:]
		for i, cell := range rest {
			if named {
				rest[i] = heads[i+1] + ": " + cell
			}
		}
		list = append(list, [2]string{r[0], strings.Join(rest, " · ")})
		left = max(left, uniseg.StringWidth(r[0]))
	}
	if left <= widest && !named {
		s.list(list)
		return
	}
	for _, r := range list {
		s.say("  ", r[0])
		s.say("      ", r[1])
	}
}
