package loopsearch

import (
	"cmp"
	"context"
	"math"
	"slices"

	"seamrail/motion/base/root"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/drivetrain/torque"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
)

const (
	// spread is how many loops of each law are tried over the range before any
	// halving: neighbours then differ by a fifth over a range of sixteen times,
	// and a band of loops that hold is seldom narrower.
	spread = 16
	// glances is how many frames of a loop are looked at while searching. A
	// law's peak lies between two of 240 within a thousandth of its height.
	glances = 240
	// nudges is how many loops a find is moved by, one at a time, when the last
	// look at every frame sees more than the glances did.
	nudges = 4
	// widest is the default range about the shot's own loop.
	widest = 4
)

type search struct {
	Question
	grain    int64 // timeline frames between loops with whole captured frames
	from, to int64 // in grains
	answer   Answer
	kept     map[string]bool // by the hash of a plan: whether the controller keeps up
	until    context.Context
}

func newSearch(ctx context.Context, q Question) (*search, error) {
	q.Accept = cmp.Or(q.Accept, picture.Fair)
	from, to := Range(q.Shot)
	q.From, q.To = cmp.Or(q.From, from), cmp.Or(q.To, to)
	grain := q.Shot.Clock.PerScreen().Den().Int64()
	s := &search{Question: q, grain: grain, from: (q.From + grain - 1) / grain, to: q.To / grain, kept: map[string]bool{}, until: ctx}
	s.answer.Kept = map[string]int{}
	if s.from < 1 || s.from > s.to {
		return nil, ErrRange
	}
	return s, nil
}

// standing looks at the shot as it is for what no pace will change. A picture
// that must not be driven is not searched.
func (s *search) standing() (blocked bool, err error) {
	p, err := plan.Build(s.Shot, s.Rig)
	if err != nil {
		return false, err
	}
	r, err := picture.Examine(lensview.Replanned(trajectory.New(p), s.Shot), s.Scene)
	if err != nil {
		return false, err
	}
	for _, v := range r.Verdicts {
		if !v.Paced && v.Level > s.Accept {
			s.answer.Standing = append(s.answer.Standing, v)
		}
		if v.Paced && v.Level == picture.Unknown {
			s.answer.Unknown = append(s.answer.Unknown, v)
		}
	}
	return r.Blocks(), nil
}

// laws are those to try; one of no name where no axis takes another.
func (s *search) laws() []law.Law {
	for _, m := range s.Shot.Axes {
		if _, goes := m.Does.(move.Shuttle); goes {
			if s.Laws != nil {
				return s.Laws
			}
			return law.All()
		}
	}
	return []law.Law{nil}
}

// shotOf is the shot under a law in a loop of n grains.
func (s *search) shotOf(l law.Law, n int64) (shot.Shot, error) {
	out := s.Shot
	loop, err := out.Clock.LoopFrames(n * s.grain)
	if err != nil {
		return out, err
	}
	out.Loop = loop
	out.Axes = append([]shot.AxisMove(nil), s.Shot.Axes...)
	for i, m := range out.Axes {
		if _, goes := m.Does.(move.Shuttle); goes && l != nil {
			out.Axes[i] = m.WithLaw(l)
		}
	}
	return out, nil
}

// try searches the loops under one law.
func (s *search) try(l law.Law) error {
	tried := s.ladder()
	holds := make([]bool, len(tried))
	for i, n := range tried {
		holds[i] = s.glance(l, n)
	}
	for i := range tried {
		if holds[i] {
			s.band(l, tried, holds, i)
		}
	}
	return s.until.Err()
}

// band settles the ends of a band of loops that hold, if loop i is one.
func (s *search) band(l law.Law, tried []int64, holds []bool, i int) {
	if i == 0 {
		s.settle(l, tried[i], 1)
	} else if !holds[i-1] {
		s.settle(l, s.edge(l, tried[i-1], tried[i]), 1)
	}
	if i+1 == len(tried) {
		s.settle(l, tried[i], -1)
	} else if !holds[i+1] {
		s.settle(l, s.edge(l, tried[i+1], tried[i]), -1)
	}
}

// ladder is the loops tried first, in grains, evenly apart by ratio, without
// repeats, and the shot's own: what a hand or a light does at times of its own may
// suit no other.
func (s *search) ladder() []int64 {
	var out []int64
	ratio := float64(s.to) / float64(s.from)
	for i := range spread {
		n := int64(math.Round(float64(s.from) * math.Pow(ratio, float64(i)/(spread-1))))
		out = append(out, n)
	}
	if own := s.Shot.Loop.Screen / s.grain; own >= s.from && own <= s.to {
		out = append(out, own)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// edge halves the way from a loop that fails to one that holds, and returns
// the last that holds.
func (s *search) edge(l law.Law, fails, holds int64) int64 {
	return root.Whole(fails, holds, func(n int64) bool { return s.glance(l, n) })
}

// glance tells whether a loop keeps the rig's limits, looks right at some of its
// frames and is within what the controller can follow.
func (s *search) glance(l law.Law, n int64) bool {
	if s.until.Err() != nil {
		return false
	}
	s.answer.Tried++
	if s.Tell != nil {
		s.Tell(s.answer.Tried)
	}
	p, _, ok := s.planned(l, n)
	if !ok {
		s.answer.Kept["limits"]++
		return false
	}
	r, err := picture.Glance(lensview.Motion(trajectory.New(p)), s.Scene, glances)
	return err == nil && s.accepts(r) && s.follows(p)
}

// follows tells whether every motor has the torque and the rig's controller is
// expected to keep up. A loop that cannot be cut for it is left to those who cut.
func (s *search) follows(p *plan.Plan) bool {
	for _, a := range torque.Examine(p) {
		if a.Level == torque.Short {
			s.answer.Kept["motors"]++
			return false
		}
	}
	if !s.keepsUp(p) {
		s.answer.Kept["controller"]++
		return false
	}
	return true
}

// keepsUp tells whether the rig's controller is expected to keep up. A loop is looked
// at more than once.
func (s *search) keepsUp(p *plan.Plan) bool {
	hash := p.Hash()
	ok, known := s.kept[hash]
	if !known {
		c, err := ontime.TryUntil(s.until, trajectory.New(p), int64(p.Rounds))
		ok = err != nil || c.Expected.Follows()
		s.kept[hash] = ok
	}
	return ok
}

// planned plans a loop; ok is false where it cannot be or breaks a limit.
func (s *search) planned(l law.Law, n int64) (*plan.Plan, shot.Shot, bool) {
	out, err := s.shotOf(l, n)
	if err != nil {
		return nil, out, false
	}
	p, err := plan.Build(out, s.Rig)
	if err != nil || len(p.Breaches()) > 0 {
		return nil, out, false
	}
	return p, out, true
}

// accepts tells whether nothing that the pace decides is worse than accepted,
// and nothing blocks.
func (s *search) accepts(r picture.Report) bool {
	ok := true
	for _, v := range r.Verdicts {
		if v.Level == picture.Block || v.Paced && v.Level > s.Accept {
			s.answer.Kept[v.Check]++
			ok = false
		}
	}
	return ok
}

// settle has the loop verified and looked at in every frame, moves it by a
// grain the way inwards if that finds fault, and keeps what is best.
func (s *search) settle(l law.Law, n, inward int64) {
	for range nudges {
		if f, ok := s.proven(l, n); ok {
			s.keep(f)
			return
		}
		if n += inward; n < s.from || n > s.to {
			return
		}
	}
}

func (s *search) proven(l law.Law, n int64) (Found, bool) {
	p, out, ok := s.planned(l, n)
	if !ok || s.until.Err() != nil {
		return Found{}, false
	}
	t := trajectory.New(p)
	r, err := picture.Look(lensview.Motion(t), s.Scene)
	if err != nil || !s.accepts(r) || !s.follows(p) {
		return Found{}, false
	}
	if !verify.Check(t).OK {
		s.answer.Kept["verifier"]++
		return Found{}, false
	}
	f := Found{Shot: out, Strain: strain(p), Report: r}
	if l != nil {
		f.Law = l.Name()
	}
	return f, true
}

// cured looks at a find again, with what may cure its picture.
func (s *search) cured(f *Found) error {
	if f == nil {
		return nil
	}
	p, err := plan.Build(f.Shot, s.Rig)
	if err != nil {
		return err
	}
	f.Report, err = picture.Examine(lensview.Replanned(trajectory.New(p), f.Shot), s.Scene)
	return err
}

// keep holds on to the quickest and the gentlest. Of equal lengths the
// gentler is quickest, of equal strain the shorter gentlest.
func (s *search) keep(f Found) {
	q, g := s.answer.Quickest, s.answer.Gentlest
	if q == nil || cmp.Or(cmp.Compare(f.Frames(), q.Frames()), cmp.Compare(f.Strain, q.Strain)) < 0 {
		s.answer.Quickest = &f
	}
	if g == nil || cmp.Or(cmp.Compare(f.Strain, g.Strain), cmp.Compare(f.Frames(), g.Frames())) < 0 {
		s.answer.Gentlest = &f
	}
}

// strain is the greatest share that any axis takes of its limits of
// acceleration and jerk.
func strain(p *plan.Plan) float64 {
	most := 0.0
	for _, a := range p.Axes {
		most = math.Max(most, math.Abs(a.Extremes.Acc.Value)/a.Rig.MaxAcc)
		if a.Rig.MaxJerk > 0 {
			most = math.Max(most, math.Abs(a.Extremes.Jerk.Value)/a.Rig.MaxJerk)
		}
	}
	return most
}
