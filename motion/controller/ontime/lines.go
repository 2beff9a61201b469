package ontime

import (
	"seamrail/motion/controller/firmware"
	"seamrail/motion/controller/quantize"
	"seamrail/motion/controller/segment"
)

// script is what the controller is told of a take of a few rounds, as far as
// the pace of its lines does not matter.
type script struct {
	moves   []firmware.Counts // by which each line moves; none where it dwells
	blocks  []*segment.Block  // that made each line; nil for what settles at an end
	targets []float64         // s of the path that each line takes
	stretch []float64         // by which each is told to take longer; see quantize.Stretch
	rounds  []int             // the first line of each round, and the first after them
}

// script returns what is told of so many rounds. Each block is aimed to last
// what extra says longer than it is to.
func (m *machine) script(k segment.Take, rounds int, extra *extra) *script {
	s := &script{}
	var in *segment.Block
	past, more := 0.0, 0.0
	var t *quantize.Quantizer
	t = quantize.New(m.c, m.axes, m.advance, func(l *quantize.Line) {
		var c firmware.Counts
		if l.Moves {
			copy(c[:], l.Steps)
		}
		s.moves = append(s.moves, c)
		s.blocks = append(s.blocks, in)
		s.targets = append(s.targets, l.Until-past+more)
		s.stretch = append(s.stretch, t.Stretch(l))
		past, more = l.Until, 0
	})
	tell := func(blocks []segment.Block, lasts, extra []float64) {
		for i := range blocks {
			in = &blocks[i]
			if !in.Rest {
				more += extra[i]
			}
			t.Block(lasts[i], lasts[i], in.End, in.Rest)
		}
	}
	round := seconds(k.Round)
	t.Start(k.Rest)
	tell(k.RunUp, seconds(k.RunUp), extra.up)
	for r := range rounds {
		s.rounds = append(s.rounds, len(s.moves))
		t.Shift(int64(r))
		tell(k.Round, round, extra.round)
	}
	s.rounds = append(s.rounds, len(s.moves))
	tell(k.RunOut, seconds(k.RunOut), extra.out)
	in = nil
	t.Settle()
	return s
}

// extra is by how many s each block of a take is aimed to last longer than it
// is to, to make up for what the controller makes of it.
type extra struct {
	up, round, out []float64
	level          float64 // by which the first move of a round is shorter, and the last longer
}

func extraOf(k segment.Take) *extra {
	return &extra{up: make([]float64, len(k.RunUp)), round: make([]float64, len(k.Round)), out: make([]float64, len(k.RunOut))}
}

func seconds(blocks []segment.Block) []float64 {
	out := make([]float64, len(blocks))
	for i := range blocks {
		out[i] = blocks[i].Seconds.Float()
	}
	return out
}
