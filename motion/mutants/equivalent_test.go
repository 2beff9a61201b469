package mutants_test

import "slices"

// twin is a change that does the same, or what nobody can tell from it. The line is
// known by its text, so that it may move.
type twin struct {
	file, text, was, with string
	why                   string
}

var twins = []twin{
	{"motion/controller/segment/equal.go", "if longest.Sign() < 0 {", "<", "<=", "nothing is 0 any more: that meant the default"},
	{"motion/controller/segment/ramp.go", "if at > 0 {", ">", ">=", "at the seam itself both are where the track begins"},
	{"motion/controller/segment/ramp.go", "case c.Even && sec < 0 && up != nil:", "<", "<=", "at the seam itself the ramp is where the track begins"},
	{"motion/controller/segment/ramp.go", "case c.Even && sec > period && out != nil:", ">", ">=", "at the seam itself the ramp is where the track ends"},
	{"motion/controller/segment/ramp.go", "if math.Abs(seam.Pos-sign*seam.Vel*length/2-planned) > rampGrain {", ">", ">=", "no ramp is off by a millionth to the last bit"},
	{"motion/controller/segment/ramp.go", "return 0, false", "0", "1", "nobody looks at it"},
	{"motion/plan/nearest.go", "const sieveSlack = 1e-8", "1e-8", "1.00000001", "what passes the sieve is worked out exactly all the same"},
	{"motion/plan/ramp.go", "return 0, false", "return 0, false", "", "without an acceleration the root is at 1.5 of the ramp, which is no turn either"},
	{"motion/plan/ramp.go", "if !(u > 0 && u < 1) {", ">", ">=", "no ramp turns where it begins to the last bit"},
	{"motion/plan/ramp.go", "if !(u > 0 && u < 1) {", "<", "<=", "no ramp turns where it ends to the last bit"},
	{"motion/plan/ramp.go", "if u > 0 && u < 1 {", ">", ">=", "both ends are looked at anyway"},
	{"motion/plan/ramp.go", "if u > 0 && u < 1 {", "<", "<=", "both ends are looked at anyway"},
	{"motion/plan/change.go", "most := exact.Int(maxRampSeconds).Mul(c.loop.Clock.Capture).Ceil().Whole() + 1", "Ceil", "Floor", "a bound on the search, of a minute, by a frame"},
	{"motion/plan/change.go", "most := exact.Int(maxRampSeconds).Mul(c.loop.Clock.Capture).Ceil().Whole() + 1", "+", "-", "a bound on the search, of a minute, by a frame"},
	{"motion/plan/change.go", "most := exact.Int(maxRampSeconds).Mul(c.loop.Clock.Capture).Ceil().Whole() + 1", "1", "2", "a bound on the search, of a minute, by a frame"},
	{"motion/plan/course.go", "return c.back > 0 && math.Mod(sec, c.period()) > c.shown()*(1+limitSlack)", "0", "1", "no axis turns round twice in a frame"},
	{"motion/plan/wayback.go", `return 0, fmt.Errorf("it would take more than %d s; the axes' limits are too low for the speed at the cut", maxBackSeconds)`, "0", "1", "nobody looks at it"},
	{"motion/plan/timescale.go", "if math.IsInf(a.Extremes.Jerk.Value, 0) {", "0", "1", "what jumps is told as beyond all bounds above, never below"},
	{"motion/plan/returns.go", "if len(faults) > 0 || !round.leavesTravelUnseen() {", "0", "1", "what has a fault at one share has it at all"},
	{"motion/plan/change.go", "break", "break", "", "it only saves looking at longer ramps, which are further off"},
	{"motion/controller/firmware/slicer.go", "if on := left - part*(s.speed-0.5*gain); on > 0 {", ">", ">=", "no way down ends with a slice to the last bit"},
	{"export/drive/playeragrees.go", "case played-gone > may:", ">", ">=", "no rows are early by the bound to the last bit"},
	{"export/drive/playeragrees.go", "case late > may:", ">", ">=", "no rows are late by the bound to the last bit"},
	{"export/drive/engine.go", "const never = 24 * time.Hour", "24", "48", "a wait for nothing is begun anew after either"},
	{"export/drive/options.go", "const endless = 1e12", "1e12", "2e+12", "no take has as many rounds as either"},
	{"export/drive/trydwells.go", "return 0, 0, err", "0", "1", "nobody looks at it"},
	{"export/drive/take.go", "return false, err", "false", "true", "after an error nothing is begun anew"},
	{"export/drive/take.go", "return false, err // the fault ends the pass once all is at rest", "false", "true", "after an error nothing is begun anew"},
	{"export/drive/take.go", "return false, errStopped", "false", "true", "after an error nothing is begun anew"},
	{"export/drive/take.go", "return false, logged", "false", "true", "after an error nothing is begun anew"},
	{"motion/verify/steps.go", "f.OK = exact.Int(net).Equal(gain) && start <= indexTolerance", "<=", "<", "no carriage stands off by the tolerance to the last bit"},
	{"motion/verify/steps.go", "f.OK = off.Less(exact.Int(1)) && start <= indexTolerance", "<=", "<", "no carriage stands off by the tolerance to the last bit"},
	{"motion/verify/seam.go", "if math.Abs(*out[d]) <= s.Told[d] {", "<=", "<", "no jump is what is told from none to the last bit, which rounding keeps above 0"},
	{"motion/verify/onesided.go", "if err < best.err {", "<", "<=", "two windows are as far off to the last bit only of a place, which is the same in each"},
	{"motion/verify/steps.go", "if !math.IsInf(w.closest, 1) {", "1", "2", "any sign above 0 asks for the same infinity"},
	{"motion/verify/frames.go", "before := exact.Int(-1)", "1", "2", "frame 0 is on the seam, and after any time before it"},
	{"motion/verify/frames.go", "if k > 0 && !at.Sub(before).Equal(each) {", "0", "1", "frame 1 is what the others are held to, after a frame 0 on the seam"},
	{"motion/verify/stands.go", "for k := int64(0); k <= m.Captured() && ctx.Err() == nil; k += stride {", "0", "1", "frame 0 is where it is counted from"},
	{"motion/controller/segment/equal.go", "if math.Abs(last[i]-start) < seamGrain {", "<", "<=", "no round is off by a billionth to the last bit"},
	{"motion/plan/limits.go", "{Position, lo, a.Rig.Min, 1, func(v, bound float64) bool { return v < bound-slack }},", "<", "<=", "no axis is beyond its travel by the slack to the last bit"},
	{"motion/plan/limits.go", "{Position, hi, a.Rig.Max, 1, func(v, bound float64) bool { return v > bound+slack }},", ">", ">=", "no axis is beyond its travel by the slack to the last bit"},
	{"motion/controller/ontime/chain.go", "if f := l.mean(); f <= lower {", "<=", "<", "at the edge one end slower comes to the same speed"},
	{"motion/controller/ontime/chain.go", "if f <= upper {", "<=", "<", "at the edge both ends slower come to the same speed"},
	{"motion/controller/ontime/chain.go", "if root <= 0 {", "<=", "<", "at 0 the root is where the two come nearest"},
	{"motion/controller/ontime/ticks.go", "if min(in, out) < nearNominal*l.speed {", "<", "<=", "no block begins with that share of its speed to the last bit"},
	{"motion/controller/ontime/ticks.go", "if math.Abs(got/want-1) > maxStair { // as one that is exact is, for ever", ">", ">=", "no block is off by that share to the last bit"},
	{"motion/controller/ontime/within.go", "looks = 2000", "2000", "4000", "about the greatest speed, to some millionths, either way"},
	{"motion/controller/ontime/witness.go", "for w.next < end {", "<", "<=", "what runs next begins where this one ends, and is looked at there"},
}

func (e twin) is(s site) bool {
	return e.file == s.file && e.text == s.text && e.was == s.was && e.with == s.with
}

func equivalent(s site) bool { return slices.ContainsFunc(twins, func(e twin) bool { return e.is(s) }) }
