package check

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

// Lengths of time that may be meant otherwise.

var decimalMinutes = &Check{
	Name: "decimal-minutes", Severity: problem.Warning,
	Summary: "hours with two decimals that look like minutes",
	Explain: "The point in `1.30h` is a decimal one, so that is 1h 18m. " +
		"Quarters, halves and thirds of an hour are taken as meant.",
	Example: "---\nstage: body\nwrong|time: 1.30h filler\nright|time: 1h30 filler\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, l := range w.note.Lines {
				if m, ok := l.Head.(measure.Minutes); ok && !p.leftOut(l) {
					p.decimalMinutes(l.HeadSpan(), m)
				}
			}
			for _, it := range w.note.Items {
				if c := it.Clause("takes"); c != nil && !p.leftOut(it.Line) {
					if m, ok := c.Value.(measure.Minutes); ok {
						p.decimalMinutes(c.Arg.Whole(), m)
					}
				}
			}
		}
	},
}

// twoDecimals are hours with what may be minutes behind the point.
var twoDecimals = regexp.MustCompile(`^([0-9]+)\.([0-5][0-9]) *h`)

func (p *Pass) decimalMinutes(at source.Span, m measure.Minutes) {
	digits := twoDecimals.FindStringSubmatch(at.Text())
	if digits == nil || slices.Contains([]string{"00", "25", "33", "50"}, digits[2]) {
		return
	}
	p.Report(at, fmt.Sprintf("%q is %s", at.Text(), m), fmt.Sprintf("Write %sh%s if these are minutes, or %s if it is right.", digits[1], digits[2], m))
}

var pastMidnight = &Check{
	Name: "past-midnight", Severity: problem.Warning,
	Summary: "a clock range past midnight of more than twelve hours",
	Explain: "Times of day run from 0:00 to 24:00, and an end before the start is on the next day. " +
		"The afternoon's five o'clock is 17:00. Such a length is written as a duration where it is right.",
	Example: "---\nstage: body\nwrong|time: 9:00-5:00 filler\nright|time: 9:00-17:00 filler\n---\n",
	Run: func(p *Pass) {
		for _, w := range p.notes {
			for _, l := range w.note.Lines {
				m, ok := l.Head.(measure.Minutes)
				if !ok || p.leftOut(l) || m <= halfDay {
					continue
				}
				t := clockRange.FindStringSubmatch(l.HeadSpan().Text())
				if t == nil || clockMinutes(t[2], t[3]) < clockMinutes(t[4], t[5]) {
					continue
				}
				help := fmt.Sprintf("Check both times, or write %s if it is right.", m)
				if end := clockMinutes(t[4], t[5]) + halfDay; end > clockMinutes(t[2], t[3]) && end < measure.Day {
					help = fmt.Sprintf("Write %s-%d:%02d if it ended in the afternoon, or %s if it is right.", t[1], end/60, end%60, m)
				}
				p.Report(l.HeadSpan(), fmt.Sprintf("%q runs past midnight and is %s", l.HeadSpan().Text(), m), help)
			}
		}
	},
}

const halfDay measure.Minutes = 12 * 60

var clockRange = regexp.MustCompile(`^(([0-9]+):([0-9]+))[^0-9]+([0-9]+):([0-9]+)$`)

func clockMinutes(hours, minutes string) measure.Minutes {
	h, _ := strconv.Atoi(hours)
	m, _ := strconv.Atoi(minutes)
	return measure.Minutes(h*60 + m)
}
