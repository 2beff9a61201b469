package motionplot

import (
	"fmt"

	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/verify/trace"
	"seamrail/plot/internal/style"
)

// stands returns what a figure shows of the stands of p.
func stands(p *plan.Plan) []Stand {
	var out []Stand
	t := trajectory.New(p)
	for i := range t.StandCount() {
		s := t.Stand(i)
		turned := t.StandAngle(i, t.Captured()).Sub(t.StandAngle(i, 0)).Abs()
		one := Stand{
			Name: s.Name, Turned: turned.Float(), Face: s.Face.Float(), Match: turned.Sub(s.Off).Float(),
			Closes: p.Stands[i].Seam.Closes(), Off: offWords(s),
		}
		one.Seam = standSeam(p.Stands[i], one.Off)
		out = append(out, one)
	}
	return out
}

func offWords(s trace.Stand) string {
	off := style.Number(s.Off.Abs().Float()) + " deg"
	switch s.Off.Sign() {
	case -1:
		return off + " short"
	case 1:
		return off + " past"
	}
	return "exact"
}

// standSeam says what an eye sees at the seam.
func standSeam(s plan.Stand, off string) string {
	bound := style.Number(s.Seam.Bound.Float() * 360)
	if s.Seam.Closes() {
		return fmt.Sprintf("closes: %s, within %s deg", off, bound)
	}
	return fmt.Sprintf("jumps at every repeat: %s, beyond %s deg", off, bound)
}
