package vibration

import (
	"seamrail/motion/law"
	"seamrail/motion/vibration/spring"
)

// Residual returns the amplitude of the swing that a move from rest to rest by
// law l in sec seconds leaves as it ends, as a share of its travel.
//
// Undamped, with r = f sec, it is |sin(pi r)/(pi r)| for the uniform law,
// |cos(pi r)/(1-4r^2)| for the harmonic, |sin(pi r)/(pi r (1-r^2))| for the
// cycloidal (residual spectra as of R. S. Ayre, chapter 8 of Harris' Shock and
// Vibration Handbook, 5th ed., McGraw-Hill 2002, ISBN 0-07-137081-1): on a move
// of a swing or so the smoother law leaves more.
//
// It panics if sec is not above 0 or the spring is out of bounds.
func Residual(s spring.Spring, l law.Law, sec float64) float64 {
	if err := s.Check(); err != nil || !(sec > 0) {
		panic("vibration: a residual of no time or no spring")
	}
	return s.Swing(after(s, l, sec))
}

// after is the state just after the move, for a travel of 1.
func after(s spring.Spring, l law.Law, sec float64) spring.State {
	ends := []float64{1}
	if b, ok := l.(law.Breaker); ok {
		ends = append(b.Breaks(), 1)
	}
	acc := func(t float64) float64 { return l.At(t/sec).A / (sec * sec) }
	var all []stretch
	from := 0.0
	for _, to := range ends {
		all = append(all, stretch{from: from * sec, to: to * sec, acc: acc})
		from = to
	}
	all[0].kick = l.At(0).V / sec
	x := run(panels(s, all), spring.State{})
	x.Vel += l.At(1).V / sec
	return x
}
