package ontime

import "seamrail/motion/controller/segment"

const (
	// ownGain is the share of what a line was late by that is taken off what it
	// is aimed to take, and legGain that of what all lines from rest to rest were,
	// which they share: neighbours make up for what one cannot alone.
	ownGain = 0.6
	legGain = 0.4
	// offEdge is by which share a block is told to take longer or less where the
	// last digit of a number would decide between two step intervals.
	offEdge = 2e-5
	// maxLevel bounds by how much the ends of a round may be late for its middle
	// not to be, s: the take is as much longer or shorter.
	maxLevel = 0.0007
	// maxExtra bounds what a line is aimed to take more or less, as a share.
	maxExtra = 0.5
)

// learn takes what each line was late by off what it is aimed to take. Of the
// rounds the last that was run counts, which follows on one like itself.
func (f *fitting) learn(w *witness, share float64) {
	f.share = share
	last := int64(w.rounds - 1)
	f.seam(w)
	from := 0
	for from < len(w.lines) {
		round, to := w.lines[from].round, from
		for to < len(w.lines) && w.lines[to].round == round {
			to++
		}
		switch {
		case round < 0:
			f.stage(w, from, to, f.take.RunUp, f.extra.up)
		case round == last:
			f.stage(w, from, to, f.take.Round, f.extra.round)
			f.level(w, w.lines[from:to])
		case round > last:
			f.stage(w, from, to, f.take.RunOut, f.extra.out)
		}
		from = to
	}
}

// stage learns from lines of one stage.
func (f *fitting) stage(w *witness, from, to int, blocks []segment.Block, extra []float64) {
	for from < to {
		l := &w.lines[from]
		if l.block >= len(blocks) {
			return
		}
		if blocks[l.block].Rest {
			if from+1 < len(w.lines) { // how long the last one is, nothing tells
				f.stood(blocks, l.block, w.over(from))
			}
			from++
			continue
		}
		leg := from + 1
		for leg < to && w.lines[leg].block < len(blocks) && !blocks[w.lines[leg].block].Rest {
			leg++
		}
		f.leg(w, from, leg, w.lines[from:to], blocks, extra)
		from = leg
	}
}

// seam learns from the rest at which rounds meet. The timer may stand otherwise
// when the first round begins than when the others do; as all begin with the same
// line, the rest before it makes up for that.
func (f *fitting) seam(w *witness) {
	n := len(f.take.Round)
	if w.rounds < 2 || !f.take.Round[n-1].Rest || f.take.Round[0].Rest {
		return
	}
	first, begins := -1, 0
	for i := range w.lines {
		if r := w.lines[i].round; r >= 0 && (i == 0 || w.lines[i-1].round != r) {
			if first < 0 {
				first = i
			}
			if r == int64(w.rounds-1) {
				begins = i
			}
		}
	}
	w.lines[begins].again = w.over(begins) - w.over(first)
	f.stood(f.take.Round, n-1, w.over(begins-1)+w.lines[begins].again)
}

// level takes what a round is late by all through off its first move and adds it
// to its last. When a take begins the timer may be part of an interval ahead; at
// rest at the seam that does not show, in the middle of a round it does.
func (f *fitting) level(w *witness, lines []heard) {
	if len(f.take.RunUp) > 0 || len(lines) < 3 {
		return
	}
	sum := 0.0
	for i := range lines {
		sum += w.late(&lines[i]) * (lines[i].end - lines[i].start)
	}
	end := len(lines) - 1
	for end > 0 && !lines[end].moves {
		end--
	}
	first, last := &lines[0], &lines[end]
	mean := sum / (last.end - first.start)
	drift := w.late(last) - w.late(first)
	was := f.extra.level
	f.extra.level = min(max(was+f.share*ownGain*(mean-drift/2), -maxLevel), maxLevel)
	off := f.extra.level - was
	for _, x := range []struct {
		l   *heard
		sec float64
	}{{first, -off}, {last, off}} {
		if lasts := x.l.end - x.l.start; x.l.moves && x.l.block < len(f.extra.round) {
			e := &f.extra.round[x.l.block]
			*e = min(max(*e+x.sec, -maxExtra*lasts), maxExtra*lasts)
		}
	}
}

// over is by how much longer than it is to line i lasted, and what it made wait.
func (w *witness) over(i int) float64 {
	return w.lasted(i) - (w.lines[i].end - w.lines[i].start) - w.lines[i].again
}

// leg learns from lines that move without a rest. The last before a rest keeps
// its pace, since the timer counts on by it while the axes rest, and where it
// then is decides when they go on; the one before makes up for it.
func (f *fitting) leg(w *witness, from, to int, round []heard, blocks []segment.Block, extra []float64) {
	start := w.late(&round[0])
	end := w.lines[to-1].end - w.lines[from].start
	all := 0.0
	for i := from; i < to; i++ {
		all += w.over(i)
	}
	if from > 0 {
		all += w.late(&w.lines[from]) - start
	}
	kept := to
	if to < len(w.lines) && !w.lines[to].moves && to-from > 2 {
		kept = to - 1
	}
	for i := from; i < kept; i++ {
		l := &w.lines[i]
		if f.even[&blocks[l.block]] {
			continue
		}
		own := w.over(i)
		if i == kept-1 && kept < to {
			own += w.over(kept)
		}
		lasts := l.end - l.start
		more := extra[l.block] + offEdge*float64(l.edge)*(l.end-l.start) - f.share*(ownGain*own+legGain*all*lasts/end)
		extra[l.block] = min(max(more, -maxExtra*lasts), maxExtra*lasts)
	}
}

// lasted is how long line i and what it makes wait took.
func (w *witness) lasted(i int) float64 {
	end := w.end
	if i+1 < len(w.lines) {
		end = w.lines[i+1].began
	}
	return (end - w.lines[i].began).Seconds()
}
