package track

// Jet is a value of a function and its first three derivatives.
type Jet [4]float64

// Of returns the state of the function of a place that itself moves: the chain
// rule up to the third derivative (Faa di Bruno's formula: W. P. Johnson,
// Amer. Math. Monthly 109:217-234, 2002, DOI 10.2307/2695352). s is the state
// of the place the jet was taken at.
func (g Jet) Of(s State) State {
	v := s.Vel
	return State{
		Pos:  g[0],
		Vel:  g[1] * v,
		Acc:  g[2]*v*v + g[1]*s.Acc,
		Jerk: g[3]*v*v*v + 3*g[2]*v*s.Acc + g[1]*s.Jerk,
	}
}

// after returns the jet of outer over inner, outer taken at the value of inner.
func (g Jet) after(inner Jet) Jet {
	s := g.Of(State{Pos: inner[0], Vel: inner[1], Acc: inner[2], Jerk: inner[3]})
	return Jet{s.Pos, s.Vel, s.Acc, s.Jerk}
}
