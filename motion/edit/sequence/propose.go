package sequence

import "seamrail/motion/camera/picture"

// Proposal is where a cut would carry the motion best, within the handles on its sides.
// Frames are counted as Last and From are: what is beyond the loop is of its next round,
// and an In below 0 of the round before.
type Proposal struct {
	Cut        int // of the clip's
	Out, In    int64
	Was, Would Carry
	// OutFrom to OutTo and InFrom to InTo are the frames that were tried, all of them.
	OutFrom, OutTo, InFrom, InTo int64
}

// Better tells whether it carries better than the cut as it is by more than a tenth:
// less is not worth a change, nor is it where the cut is Fine.
func (p Proposal) Better() bool { return !p.Fine() && p.Would.Cost() < 0.9*p.Was.Cost() }

// unseen, px/frame, is off by what nobody sees: below half a pixel no pixel need change.
const unseen = 0.5

// Fine tells whether the cut carries on as it is, to within what nobody sees.
func (p Proposal) Fine() bool { return p.Was.Cost() < unseen }

// MaxReach is how many frames either way a cut is looked for at most: ten seconds at 24.
// 231 361 pairs are all tried.
const MaxReach = 240

// Propose looks for the best frames of every cut whose motion is seen and that is one:
// of all pairs of an out and an in frame, the one of least Cost, and of equals the one
// nearest to the cut as it is.
func (c *Clip) Propose() ([]Proposal, error) {
	var out []Proposal
	for i, cut := range c.Cuts {
		if !cut.Seen || cut.Momentum == Continuous {
			continue
		}
		p, known, err := c.propose(i)
		if err != nil {
			return nil, err
		}
		if known {
			out = append(out, p)
		}
	}
	return out, nil
}

// propose looks for the best frames of one cut. They are not known where the picture is
// not at some frame within reach.
func (c *Clip) propose(i int) (p Proposal, known bool, err error) {
	cut := c.Cuts[i]
	a, b := c.Pieces[cut.From], c.Pieces[cut.To]
	p = Proposal{Cut: i, Out: a.Last(), In: b.From}
	p.OutFrom, p.OutTo = a.outs()
	p.InFrom, p.InTo = b.ins()
	outs, err := a.along(p.OutFrom, p.OutTo)
	if err != nil || outs == nil {
		return p, false, err
	}
	ins, err := b.along(p.InFrom, p.InTo)
	if err != nil || ins == nil {
		return p, false, err
	}
	wide := a.wide()
	s := search{outs: outs, ins: ins, out: int(p.Out - p.OutFrom), in: int(p.In - p.InFrom),
		carry: func(x, y picture.Flow) Carry { return carried(x, y, c.Playback, wide) }}
	k, l := s.best()
	p.Was, p.Would = s.carry(outs[s.out], ins[s.in]), s.carry(outs[k], ins[l])
	p.Out, p.In = p.OutFrom+int64(k), p.InFrom+int64(l)
	return p, true, nil
}

// search is one for a pair of frames.
type search struct {
	outs, ins []picture.Flow
	out, in   int // where the cut is now
	carry     func(x, y picture.Flow) Carry
}

// best tries every pair.
func (s search) best() (out, in int) {
	out, in = s.out, s.in
	least := s.carry(s.outs[out], s.ins[in]).Cost()
	for k, x := range s.outs {
		for l, y := range s.ins {
			cost := s.carry(x, y).Cost()
			if cost < least || cost == least && s.away(k, l) < s.away(out, in) {
				out, in, least = k, l, cost
			}
		}
	}
	return out, in
}

// away is how many frames a pair is from the cut as it is.
func (s search) away(k, l int) int { return max(k-s.out, s.out-k) + max(l-s.in, s.in-l) }

// Reach is how many frames either way a cut of the piece is looked for: its handles, or
// half a second where the shot asks for less.
func (p Piece) Reach() int64 {
	half := p.Shot.Clock.Playback.Float() / 2
	return min(MaxReach, max(p.Shot.Handles, int64(half)))
}

// spare is how many frames of the piece its own two ends may each take.
func (p Piece) spare() int64 { return min(p.Reach(), (p.Frames-1)/2) }

// outs are the frames that it may end with: what a take records at pace bounds them.
func (p Piece) outs() (from, to int64) {
	further := p.Trajectory.Rounds()*p.loop() - 1 - p.Last()
	if !p.Closed() {
		further = p.loop() - 1 - p.Last()%p.loop()
	}
	return p.Last() - p.spare(), p.Last() + min(p.Reach(), max(0, further))
}

// ins are the frames that it may begin with.
func (p Piece) ins() (from, to int64) {
	earlier := p.From
	if p.Closed() {
		earlier += max(0, p.Trajectory.Rounds()-1-p.Wraps()) * p.loop()
	}
	return p.From - min(p.Reach(), earlier), p.From + p.spare()
}

// along are the flows of the piece from one frame to another.
func (p Piece) along(from, to int64) ([]picture.Flow, error) {
	var seconds []float64
	for f := from; f <= to; f++ {
		seconds = append(seconds, p.seconds(f))
	}
	flows, _, err := p.flows(seconds)
	return flows, err
}

// Change is what a proposal changes of a [[shot]].
type Change struct {
	Piece        int
	From, Length int64 // frames
	// Moved is by how many frames its end then comes later in the clip.
	Moved int64
	// Restated is set where its length has to be written, though it stays: as it is said
	// now, it counts from where the shots before it no longer end.
	Restated bool
}

// Changes are what the proposals that are better change of the shots, in their order.
func (c *Clip) Changes(all []Proposal) []Change {
	type ends struct{ in, out int64 }
	now := make([]ends, len(c.Pieces))
	for i, p := range c.Pieces {
		now[i] = ends{p.From, p.Last()}
	}
	touched := map[int]bool{}
	for _, p := range all {
		if !p.Better() {
			continue
		}
		cut := c.Cuts[p.Cut]
		if p.Out != now[cut.From].out {
			now[cut.From].out, touched[cut.From] = p.Out, true
		}
		if p.In != now[cut.To].in {
			now[cut.To].in, touched[cut.To] = p.In, true
		}
	}
	var out []Change
	moved := int64(0)
	for i, p := range c.Pieces {
		restated := moved != 0 && (p.Entry.Lasts() == "until" || p.Entry.OnMusic())
		if !touched[i] && !restated {
			continue
		}
		loop, length := p.loop(), now[i].out-now[i].in+1
		moved += length - p.Frames
		out = append(out, Change{i, ((now[i].in % loop) + loop) % loop, length, moved, restated})
	}
	return out
}
