package program

import "strconv"

// word appends the word of an axis' target: "X40.000", never "-0".
func (p *Program) word(buf []byte, i int) []byte {
	return appendWord(buf, p.letters[i], p.teller.Axes[i].Target, p.decimals)
}

// appendWord appends n counts of the last decimal.
func appendWord(buf []byte, letter byte, n int64, decimals int) []byte {
	buf = append(buf, letter)
	if n < 0 {
		buf = append(buf, '-')
		n = -n
	}
	start := len(buf)
	buf = strconv.AppendInt(buf, n, 10)
	for len(buf)-start <= decimals {
		buf = append(buf, 0)
		copy(buf[start+1:], buf[start:])
		buf[start] = '0'
	}
	if decimals == 0 {
		return buf
	}
	point := len(buf) - decimals
	buf = append(buf, 0)
	copy(buf[point+1:], buf[point:])
	buf[point] = '.'
	return buf
}
