package note

import (
	"strings"

	"guidecoat/journal/measure"
	"guidecoat/journal/source"
)

// readDate reads a date; one without a year is near the session's, or ahead of it.
func readDate(ahead bool) func(context, string) (any, int, *source.Malformed) {
	return func(c context, s string) (any, int, *source.Malformed) {
		d, bad := measure.ReadDate(s, measure.Near{Day: c.day, Ahead: ahead})
		return d, len(s), bad
	}
}

func readDue(c context, s string) (any, int, *source.Malformed) {
	d, bad := measure.ReadDate(s, measure.Near{Day: c.day, Ahead: true})
	if bad == nil {
		return Due{Date: d}, len(s), nil
	}
	if q, notDistance := measure.ParseDistance(s); notDistance == nil {
		return Due{Distance: q}, len(s), nil
	}
	if bad.Why == "it is not written YYYY-MM-DD" && !strings.Contains(s, "-") {
		bad = &source.Malformed{End: len(s), Why: "it is neither a date nor a distance",
			Help: "Write a date such as 2026-05-30, or a distance such as 500 km."}
	}
	return nil, len(s), bad
}
