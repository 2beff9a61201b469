package y4m

// levels turn what is encoded into 0 at black and 1 at white: (code - black) / span. Of colour
// differences none is middle, and the range from the least to the greatest is wide.
type levels struct{ black, span, middle, wide float32 }

// The levels of black and white that are not full, of 8 bits; with more bits they are so
// many times as great: Rec. ITU-R BT.709-6 (2015), 4.6 (8 and 10 bits), BT.2100-2 (2018),
// table 9, for more; numbers of items and tables are from memory: no text was at hand.
const (
	black8  = 16
	white8  = 235
	middle8 = 128
	least8  = 16
	most8   = 240
)

func (h Header) levels() levels {
	times := float32(int(1) << (h.Bits - 8))
	all := float32(int(1)<<h.Bits - 1)
	switch {
	case h.Full && h.White > 0:
		return levels{0, float32(h.White), middle8 * times, all}
	case h.Full:
		return levels{0, all, middle8 * times, all}
	}
	return levels{black8 * times, (white8 - black8) * times, middle8 * times, (most8 - least8) * times}
}

func (l levels) difference(code uint32) float32 { return (float32(code) - l.middle) / l.wide }

func (l levels) of(code uint32) float32 { return (float32(code) - l.black) / l.span }

// narrow is what each byte means.
func (l levels) narrow() (known [1 << 8]float32) {
	for i := range known {
		known[i] = l.of(uint32(i))
	}
	return known
}

// deep takes two bytes a sample, the lower first.
func (l levels) deep(bytes []byte, row []float32) {
	for x := range row {
		row[x] = l.of(uint32(bytes[2*x]) | uint32(bytes[2*x+1])<<8)
	}
}
