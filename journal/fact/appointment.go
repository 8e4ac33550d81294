package fact

import "guidecoat/journal/measure"

// An Appointment is a day to be reminded of.
type Appointment struct {
	ID    string // stays the same however often it is put off; unique in the build
	Day   measure.Date
	Words string       // plain
	Noted measure.Date // when it was last written about
	Warn  int          // days before; 0 for none
}
