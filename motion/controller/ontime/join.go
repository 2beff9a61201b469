package ontime

import (
	"math"

	"seamrail/motion/controller/segment"
)

// Blocks that a controller would run faster than told, because they are below
// its slowest rate, are joined up to a few steps or a short way; more is a slow
// move, which joining does not mend. The rate is kept a tenth above.
const (
	fewSteps   = 4
	shortWay   = 0.1 // mm or degrees; a straight block from rest over it strays 0.385 of that
	slowMargin = 1.1
)

// joined returns the blocks without those in which no motor would step, or in
// which a few steps would be slower than the slowest rate, as where motion
// begins and ends gently: they become part of a neighbour.
func (m *machine) joined(blocks []segment.Block, rest []float64) []segment.Block {
	var out []segment.Block
	start := rest
	for len(blocks) > 0 {
		n := stretch(blocks, start)
		out = m.joinStretch(out, blocks[:n], start)
		start, blocks = blocks[n-1].End, blocks[n:]
	}
	for i := range out {
		if !out[i].Rest {
			out[i].Nominal = out[i].Seconds
		}
	}
	return out
}

// stretch is how many blocks go on without rest and without turning back.
func stretch(blocks []segment.Block, start []float64) int {
	if blocks[0].Rest {
		return 1
	}
	n := 1
	for ; n < len(blocks) && !blocks[n].Rest; n++ {
		here, before, dot := blocks[n-1].End, start, 0.0
		if n > 1 {
			before = blocks[n-2].End
		}
		for i := range here {
			dot += (here[i] - before[i]) * (blocks[n].End[i] - here[i])
		}
		if dot < 0 {
			break
		}
	}
	return n
}

// joinStretch appends the blocks of a stretch. From its beginning slow ones
// join the next, from its end the one before, so that both ends are alike.
func (m *machine) joinStretch(out, blocks []segment.Block, start []float64) []segment.Block {
	tail := len(blocks) - 1 // the first block of the last group
	sec := blocks[tail].Seconds.Float()
	for tail > 0 && m.tooSlow(&blocks[len(blocks)-1], sec, blocks[tail-1].End) {
		tail--
		sec += blocks[tail].Seconds.Float()
	}
	first := 0
	sec = 0
	for i := range blocks[:tail] {
		if sec += blocks[i].Seconds.Float(); !m.tooSlow(&blocks[i], sec, start) {
			out = append(out, group(blocks[first:i+1]))
			start, first, sec = blocks[i].End, i+1, 0
		}
	}
	if first < tail && first > 0 {
		// What is left in the middle goes with the group before.
		out[len(out)-1] = group([]segment.Block{out[len(out)-1], group(blocks[first:tail])})
		first = tail
	}
	return append(out, group(blocks[first:]))
}

// group is several blocks as one.
func group(blocks []segment.Block) segment.Block {
	b := blocks[len(blocks)-1]
	b.Seconds = segment.Total(blocks)
	return b
}

// tooSlow tells whether blocks from start to the end of b make no step as one that
// lasts sec s, or a few below the slowest rate.
func (m *machine) tooSlow(b *segment.Block, sec float64, start []float64) bool {
	if b.Rest {
		return false
	}
	steps, few := int64(0), false
	for i, a := range m.axes {
		per := a.StepsPerUnit.Float()
		n := int64(math.Abs(math.Round(b.End[i]*per) - math.Round(start[i]*per)))
		if n >= steps {
			steps, few = n, n <= fewSteps || float64(n) <= shortWay*per
		}
	}
	return steps == 0 || few && float64(steps) < slowMargin*m.slowest*sec
}

// leadShare is the share of the run-up that its first block may take: what is
// left is ample to come to speed.
const leadShare = 0.5

// lead makes the first block of a run-up, which is off camera, long enough for
// a ring to fill that gets its lines one answer at a time.
func (m *machine) lead(blocks []segment.Block) []segment.Block {
	if !m.link.Single || len(blocks) == 0 {
		return blocks
	}
	fill := float64(m.board.Blocks) * m.link.Reply.Seconds()
	fill = min(fill, leadShare*segment.Total(blocks).Float())
	n := 1
	for n < len(blocks) && segment.Total(blocks[:n]).Float() < fill {
		n++
	}
	return append([]segment.Block{group(blocks[:n])}, blocks[n:]...)
}
