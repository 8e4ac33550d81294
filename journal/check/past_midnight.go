package check

import (
	"fmt"
	"regexp"
	"strconv"

	"guidecoat/journal/measure"
	"guidecoat/journal/problem"
)

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
