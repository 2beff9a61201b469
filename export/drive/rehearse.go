package drive

import (
	"time"

	"seamrail/motion/controller/program"
)

// load makes ready the lines of a pass, after a rehearsal of its first rounds
// without the controller.
func (t *talker) load(p *pass) error {
	fill, rests, err := t.rehearse()
	if err == nil {
		err = t.counts()
	}
	if err == nil {
		err = t.tryDwells(rests)
	}
	if err != nil {
		return err
	}
	t.stream = stream{pass: p, source: t.Source(), fill: fill}
	t.ledger.agrees, t.ledger.off = false, 0
	if t.Rounds > 0 {
		t.stream.source.FinishAfter(t.Rounds)
	}
	return nil
}

// lead is the dwell before the motion, and the way of the lines up to it: modes
// and moves to the start, 80 bytes there and an answer to each.
func (t *talker) lead() time.Duration {
	const bytes = 120
	way := 0.0
	if t.controller.Baud > 0 {
		way = bytes * bitsPerByte / float64(t.controller.Baud)
	}
	return seconds(t.stream.fill + way)
}

// rehearsed is how many rounds a rehearsal goes through: what follows repeats.
const rehearsed = 2

// rehearse looks for lines that cannot be sent before anything moves, and
// returns the dwell that lets buffers fill, and those of the rests.
func (t *talker) rehearse() (fill float64, rests []float64, err error) {
	s := t.Source()
	rounds := int64(rehearsed)
	if t.Rounds > 0 {
		rounds = min(rounds, t.Rounds)
	}
	s.FinishAfter(rounds)
	t.leaves = make([]float64, len(t.axes))
	var aim []float64
	for line, ok := s.Next(); ok; line, ok = s.Next() {
		if err := t.fits(line); err != nil {
			return 0, nil, err
		}
		t.leaving(aim, line)
		if line.Aim != nil {
			aim = line.Aim
		}
		switch told := dwell(line.Text); {
		case line.Round == program.Setup:
			fill = max(fill, told)
		case told > 0:
			rests = append(rests, told)
		}
	}
	if err := s.Err(); err != nil {
		return 0, nil, failed(Unplanned, "%v", err)
	}
	return fill, rests, nil
}

// fits tells whether the controller can take the line.
func (t *talker) fits(line program.Line) error {
	c := t.controller
	longest := c.LineLength
	if c.Kind.Counted() && c.ReceiveBuffer > 0 {
		longest = min(max(longest, 1), c.ReceiveBuffer-2)
	}
	if longest > 0 && len(line.Text) > longest {
		return failed(Overlong, "line %q has %d characters and the controller reads %d", line.Text, len(line.Text), longest)
	}
	return nil
}
