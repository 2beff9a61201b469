package firmware

// ramp is the part of a trapezoid of speed that a slice begins in.
type ramp int

const (
	up ramp = iota
	level
	down
)

// profile is how the first block is run from where it stands: up to a top
// speed, level, and down to the speed it ends at. Places are path units from
// the end of the block.
type profile struct {
	ramp      ramp
	upUntil   float32
	downAfter float32
	top, exit float32
}

// trapezoid is the quickest way to the end of k, from its entry speed to the
// square of another.
func trapezoid(k *Block, exit2 float32) profile {
	p := profile{upUntil: k.length, exit: root(exit2)}
	half := 0.5 / k.accel
	nominal2 := k.nominal * k.nominal
	meet := 0.5 * (k.length + float32(half*(k.entry2-exit2))) // where up meets down
	switch {
	case meet <= 0: // up all the way
		p.upUntil, p.top = 0, p.exit
	case meet >= k.length: // down all the way
		p.ramp = down
	default:
		p.downAfter = half * (nominal2 - exit2)
		if p.downAfter >= meet { // a triangle
			p.upUntil, p.downAfter = meet, meet
			p.top = root(float32(2*k.accel*meet) + exit2)
			break
		}
		p.top = k.nominal
		if k.entry2 == nominal2 {
			p.ramp = level
		} else {
			p.upUntil -= half * (nominal2 - k.entry2)
		}
	}
	return p
}
