package main

import (
	"fmt"
	"regexp"
	"strings"

	"guidecoat/journal/state"
)

// sessionText is the text of a new session note: front matter that is true already,
// an empty heading, and what is outstanding in a comment that no page ever shows.
func sessionText(st *state.State, title string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "---\ndate: %s\n", st.AsOf)
	stage := runningStage(st)
	if stage != "" {
		fmt.Fprintf(&b, "stage: %s\n", stage)
	}
	if len(st.Build.Sessions) == 0 {
		return b.String() + firstLines(stage) + "---\n# " + title + "\n\n" + firstSnag
	}
	if st.Odometer != nil {
		fmt.Fprintf(&b, "# odometer: %s\n", st.Odometer)
	}
	fmt.Fprintf(&b, "---\n# %s\n\n", title)
	if notes := outstanding(st); notes != "" {
		b.WriteString("<!--\n" + notes + "-->\n")
	}
	return b.String()
}

// firstLines are comments that show in the first note of a build what its front
// matter may hold.
func firstLines(stage string) string {
	noStage := ""
	if stage == "" {
		stage = "rear axle"
		noStage = "# stage: " + stage + "\n"
	}
	return "# Take away the # from a line that you need, and change what is not so.\n# More of what may stand here: guidecoat manual\n" + noStage + `# odometer: 91252 mi
# time:
#   - 3h40 beam out, seized bolts cut
# cost:
#   - 138 rear axle beam; for rear-beam; from Tidewell Dismantlers
#   - 2 x 6 copper grease; as consumables
# parts:
#   rear-beam: arrived rear axle beam; reconditioned
# remaining:
#   ` + stage + `: 120 180 300
`
}

// firstSnag shows there how something outstanding is written.
const firstSnag = `<!--
Write what you did below this comment, and a line like this for each thing that is outstanding:

- [ ] temporary exhaust-hanger: hung on wire until the rubber comes
-->
`

// runningStage is that of the newest session that names one; before the first, the
// first of the card.
func runningStage(st *state.State) string {
	for i := len(st.Sessions) - 1; i >= 0; i-- {
		if stage := st.Sessions[i].Stage; stage != "" {
			return stage
		}
	}
	if len(st.Build.Stages) > 0 {
		return st.Build.Stages[0].Name
	}
	return ""
}

// outstanding lists the open snags, in three sorts: those that a copied line is
// about, those without an id, which only their own box clears, and those that
// follow by themselves, which a line of the front matter settles.
func outstanding(st *state.State) string {
	var copied, inPlace, bySelf []string
	for _, s := range st.Snags {
		words := inComment(s.Words)
		switch {
		case !s.Open:
		case s.ID != "" && (s.Source == state.FromNote || s.Source == state.FromSurcharge):
			copied = append(copied, "- [ ] "+strings.TrimSuffix(s.ID+": "+words, ": "))
		case s.Source == state.FromNote:
			inPlace = append(inPlace, fmt.Sprintf("%s:%d  %s", inComment(s.Span.File.Path), s.Line(), words))
		default:
			bySelf = append(bySelf, words)
		}
	}
	var b strings.Builder
	for _, part := range []struct {
		title string
		lines []string
	}{
		{"Outstanding. Copy a line below this comment to say a word about it, or with [x] to clear it.", copied},
		{"Without an id; tick these where they stand.", inPlace},
		{"Settled by a line below checks: or readings:, or by a fault scan.", bySelf},
	} {
		if len(part.lines) == 0 {
			continue
		}
		if b.Len() > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(part.title + "\n\n" + strings.Join(part.lines, "\n") + "\n")
	}
	return b.String()
}

// closing is what ends a comment: in Markdown the first form, in HTML both.
var closing = regexp.MustCompile(`--(!?)>`)

// inComment makes a text safe in a comment. The entity that stands in for the
// bracket still reads as one when the line is copied.
func inComment(text string) string {
	text = strings.Join(strings.Fields(clean(text)), " ")
	return closing.ReplaceAllString(text, "--${1}&gt;")
}
