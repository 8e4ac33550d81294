package note

// What the structure of a fault code says by SAE J2012 / ISO 15031-6: the system it
// belongs to, and who has given the code its meaning. The meaning itself is in lists
// of the standard and of the makers, and is not guessed here.

// Decode says it in words: "chassis, generic", "body, maker's own", and the system alone
// where sources differ on who owns it; "" for what is not the structure of a code.
func Decode(code string) string {
	if !IsCode(code) {
		return ""
	}
	return codeSystem[code[0]] + codeOwner(code)
}

var codeSystem = map[byte]string{'P': "powertrain", 'C': "chassis", 'B': "body", 'U': "network"}

const (
	generic   = ", generic"
	makersOwn = ", maker's own"
)

// codeOwner reads the first digit. From memory: of C, B and U the makers have 1 and 2,
// of P3 the first part, to P33, and the standard has P34 to P39.
func codeOwner(code string) string {
	letter, digit, next := code[0], code[1], code[2]
	switch {
	case digit == '0', letter == 'P' && digit == '2':
		return generic
	case letter == 'P' && digit == '3' && next <= '3', digit == '1', digit == '2':
		return makersOwn
	case letter == 'P' && next <= '9':
		return generic
	}
	return ""
}
