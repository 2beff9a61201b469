package mutants_test

// twin is a change that does the same, or what nobody can tell from it. The line is
// known by its text, so that it may move.
type twin struct {
	file, text, was, with string
	why                   string
}

var twins = []twin{
	{"motion/segment/equal.go", "if longest.Sign() < 0 {", "<", "<=", "nothing is 0 any more: that meant the default"},
	{"motion/segment/cuts.go", "if s.Dir != 0 && s.From <= sec && sec < s.To {", "<", "<=", "it is asked for the middle between two boundaries, which is on none"},
	{"motion/segment/cuts.go", "if s.Dir != 0 && s.From <= sec && sec < s.To {", "<=", "<", "it is asked for the middle between two boundaries, which is on none"},
	{"motion/segment/ramp.go", "if at > 0 {", ">", ">=", "at the seam itself both are where the track begins"},
	{"motion/segment/ramp.go", "case c.Even && sec < 0 && a.RunUp != nil:", "<", "<=", "at the seam itself the ramp is where the track begins"},
	{"motion/segment/ramp.go", "case c.Even && sec > period && a.RunOut != nil:", ">", ">=", "at the seam itself the ramp is where the track ends"},
	{"motion/segment/ramp.go", "if math.Abs(seam.Pos-sign*seam.Vel*length/2-planned) > rampGrain {", ">", ">=", "no ramp is off by a millionth to the last bit"},
	{"motion/segment/ramp.go", "return 0, false", "0", "1", "nobody looks at it"},
	{"motion/segment/equal.go", "if math.Abs(last[i]-start) < seamGrain {", "<", "<=", "no round is off by a billionth to the last bit"},
}

func equivalent(s site) bool {
	for _, e := range twins {
		if e.file == s.file && e.text == s.text && e.was == s.was && e.with == s.with {
			return true
		}
	}
	return false
}
