package journal

import (
	"strings"

	"guidecoat/journal/source"
)

// vinLength is the length of a vehicle identification number by ISO 3779. Older
// and home-built vehicles have other numbers, which are not judged.
const vinLength = 17

// checkVIN judges a vehicle identification number. It returns no flaw for one
// that is fine or that has another length, else the flaw and the byte it stands at.
func checkVIN(vin string) (source.Flaw, int) {
	capitals := strings.ToUpper(vin)
	if len(vin) != vinLength || len(capitals) != vinLength { // the latter where letters of several bytes change
		return "", 0
	}
	vin = capitals
	if at := strings.IndexAny(vin, "IOQ"); at >= 0 {
		return BadVIN, at
	}
	for i := range vin {
		if vinValue(vin[i]) < 0 {
			return "", 0
		}
	}
	const position = 8 // the ninth character
	if vinCheckDigit(vin) != vin[position] {
		return VINCheckDigit, position
	}
	return "", 0
}

// vinCheckDigit works out the ninth character of a 17-character number in
// capitals as 49 CFR 565.15(c) does.
func vinCheckDigit(vin string) byte {
	weights := [vinLength]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}
	sum := 0
	for i, w := range weights {
		sum += w * vinValue(vin[i])
	}
	return "0123456789X"[sum%11]
}

// vinValue is the number a character stands for, 49 CFR 565.15(c) table III; -1 for
// one that cannot be in a number.
func vinValue(c byte) int {
	if c >= '0' && c <= '9' {
		return int(c - '0')
	}
	const letters = "ABCDEFGHJKLMNPRSTUVWXYZ"
	const values = "12345678123457923456789"
	if i := strings.IndexByte(letters, c); i >= 0 {
		return int(values[i] - '0')
	}
	return -1
}
