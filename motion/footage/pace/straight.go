package pace

import "math"

// Each rest's edge may be known badly where all of them together are not: of a take that goes by its
// times they lie on a level line, within what each is in doubt of.
const (
	// straightSure is up to how many frames an edge may be in doubt to be one of them.
	straightSure = 0.45
	// straightLate is up to how many frames the line may rise from the first of them to the last, twice
	// its uncertainty with it: what runs late by more is told by no other measure.
	straightLate = 0.5
	// leastHalf is the share of edges that must be seen where frames that are alike second it, and
	// leastSeconded where either the first or the last is not among them.
	leastHalf, leastSeconded = 0.5, 0.6
	// sureBack is how well ways back must be known to go as ways there to second it.
	sureBack = 0.1
	// closeLaw is up to how many frames edges may be off the line, uncertainty and all, for no heed to
	// be paid to a law that would suit better: with another law they are off by more, and a gain that
	// is cut off passes for one.
	closeLaw = 0.35
)

// straight tells whether edges that are not known well enough one by one are so together, and within
// how many frames they then come when planned.
func (l *laid) straight(r *Result) (within float64, ok bool) {
	var seen []Edge
	for _, e := range r.Edges {
		if e.Known && e.Late.Sure < straightSure {
			seen = append(seen, e)
		}
	}
	byBack := r.Back.Known && r.Back.Apart.Value <= Closely && r.Back.Apart.Sure <= sureBack
	byRounds := len(r.Rounds) > 0
	for _, n := range r.Rounds {
		byRounds = byRounds && n.Known && math.Abs(n.Most.Value)+2*n.Most.Sure <= straightLate
	}
	if !(r.Frame0.Sure < mostDoubt) || !r.Frame0.byRound(l.Loop) || r.Odd > mostOddAll || !most(seen, l.filmed(r.Edges), byBack || byRounds) || !l.inAnyRound(l.filmed(r.Edges)) {
		return 0, false
	}
	slope, level := rateOf(seen), levelOf(seen)
	first, last := seen[0].Planned, seen[len(seen)-1].Planned
	long := last - first
	rises := math.Abs(slope.Value)*long + 2*slope.Sure*long
	filmed := l.filmed(r.Edges)
	if long < (filmed[len(filmed)-1].Planned-filmed[0].Planned)/2 || !byRounds && rises > straightLate {
		return 0, false
	}
	limit := Within / 2
	if byBack || byRounds {
		limit = Roughly / 2
	}
	worst := 0.0
	for _, e := range r.Edges {
		if !e.Known {
			continue
		}
		off := math.Abs(e.Late.Value - level - slope.Value*e.Planned)
		sure := e.Late.Sure < straightSure
		if sure {
			worst = max(worst, off+e.Late.Sure)
		}
		if sure && off-e.Late.Sure > limit || !sure && off > max(2*limit, 3*e.Late.Sure) {
			return 0, false
		}
	}
	if best(r.Laws).Lowers > otherLaw && worst > closeLaw {
		return 0, false
	}
	return max(rises, 2*worst), l.share[0] >= 0 && l.shows()
}

// most tells whether enough edges were seen: as enough has it, or fewer where others second them.
func most(seen, all []Edge, seconded bool) bool {
	if len(seen) < 2 {
		return false
	}
	n := len(all)
	share := float64(len(seen)) / float64(n)
	first, last := seen[0].Planned == all[0].Planned, seen[len(seen)-1].Planned == all[n-1].Planned
	if seconded {
		return first && last && share >= leastHalf || (first || last) && share >= leastSeconded
	}
	for i, e := range all[1:] {
		bad := func(e Edge) bool { return !(e.Known && e.Late.Sure < straightSure) }
		if bad(e) && bad(all[i]) {
			return false
		}
	}
	return first && last && share >= leastEdges
}

// inAnyRound tells whether, of a take of several rounds, each edge of a round was seen in one of them:
// what is off in all of them alike no round tells.
func (l *laid) inAnyRound(all []Edge) bool {
	phase := func(e Edge) int { return int(math.Round(math.Mod(e.Planned, float64(l.Loop)))) }
	missing := map[int]bool{}
	for _, e := range all {
		missing[phase(e)] = true
	}
	for _, e := range all {
		if e.Known {
			delete(missing, phase(e))
		}
	}
	return len(missing) == 0 || l.Rounds == 1
}

// levelOf is how late edges are at planned frame 0, by the line through them.
func levelOf(edges []Edge) float64 {
	slope := rateOf(edges).Value
	w, sum := 0.0, 0.0
	for _, e := range edges {
		v := 1 / (e.Late.Sure * e.Late.Sure)
		w, sum = w+v, sum+v*(e.Late.Value-slope*e.Planned)
	}
	return sum / w
}
