package firmware

import "math"

// maxDigits of a number count; what follows is dropped, as boards do.
const maxDigits = 8

// number reads a decimal number from the beginning of s as the board does, and
// returns how many characters it has; none if it is not one. A board with 24
// bits makes a whole number of the digits first, and divides it by ten as often
// as there are decimals.
func (b *Board) number(s string) (value float64, used int) {
	var whole int64
	var digits, exponent int
	negative, point := false, false
scan:
	for ; used < len(s); used++ {
		c := s[used]
		switch {
		case c >= '0' && c <= '9':
			digits++
			switch {
			case digits <= maxDigits || b.Wide:
				whole = 10*whole + int64(c-'0')
				if point {
					exponent--
				}
			case !point:
				exponent++
			}
		case c == '.' && !point:
			point = true
		case c == '-' && used == 0:
			negative = true
		default:
			break scan
		}
	}
	if digits == 0 {
		return 0, 0
	}
	value = b.scaled(whole, exponent)
	if negative {
		value = -value
	}
	return value, used
}

func (b *Board) scaled(whole int64, exponent int) float64 {
	if b.Wide {
		return float64(whole) * math.Pow10(exponent)
	}
	return float64(Single(whole, exponent))
}

// Single is whole times ten to the exponent as a board with 24 bits works it
// out, one rounding after the other.
func Single(whole int64, exponent int) float32 {
	v := float32(whole)
	for ; exponent <= -2; exponent += 2 {
		v = float32(float64(v) * 0.01)
	}
	if exponent < 0 {
		v = float32(float64(v) * 0.1)
	}
	for ; exponent > 0; exponent-- {
		v *= 10
	}
	return v
}
