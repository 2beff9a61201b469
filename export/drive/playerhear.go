package drive

import (
	"time"

	"seamrail/export/drive/stepplayer"
)

func (p *player) heard(b []byte) {
	p.reader.Add(b)
	for f, ok := p.reader.Next(); ok; f, ok = p.reader.Next() {
		if err := p.frame(f); err != nil {
			p.fail(Garbled, "a frame of type %q that makes no sense: %v", byte(f.Type), err)
		}
	}
}

func (p *player) frame(f stepplayer.Frame) error {
	p.silent = time.Time{}
	switch f.Type {
	case stepplayer.HelloAnswer:
		return p.greeted(f)
	case stepplayer.Ack:
		room, err := stepplayer.ReadAck(f.Payload)
		p.acknowledged(f.Seq, room)
		return err
	case stepplayer.Refused:
		reason, room, err := stepplayer.ReadRefused(f.Payload)
		if err == nil {
			p.refused(f.Seq, reason, room)
		}
		return err
	case stepplayer.StatusNow:
		s, err := stepplayer.ReadStatus(f.Payload)
		if err == nil {
			p.reported(s)
		}
		return err
	}
	return nil
}

func (p *player) greeted(f stepplayer.Frame) error {
	info, err := stepplayer.ReadPlayer(f.Payload)
	if err != nil {
		return err
	}
	p.info = &info
	if !p.greets {
		p.fail(Restarted, "it said hello anew: it was reset or lost power, and what it held is gone")
	}
	return nil
}

// acknowledged drops the frames before seq: the player has obeyed them.
func (p *player) acknowledged(seq byte, room int) {
	n := int(seq - p.seq + byte(len(p.flight))) // of them, by distance around 256
	if n > len(p.flight) {
		return // an old one, overtaken
	}
	p.flight = p.flight[:copy(p.flight, p.flight[n:])]
	p.room = room
	if n > 0 {
		p.resent = p.now
	}
}

func (p *player) refused(seq byte, reason stepplayer.Reason, room int) {
	p.acknowledged(seq, room)
	switch reason {
	case stepplayer.Lost, stepplayer.NoRoom:
		p.resend()
	case stepplayer.InAlarm:
		p.fail(Alarmed, "it is in an alarm; position is not to be trusted")
	default:
		if !p.greets { // one that is still playing wants no hello; it runs out of rows
			p.fail(Refused, "frame %d refused: %v", seq, reason)
		}
	}
}

func (p *player) reported(s stepplayer.Status) {
	if p.info != nil && !p.credible(s) {
		return
	}
	was := p.status
	p.status, p.seen, p.before = &s, p.now, p.asked
	p.room = s.Room
	if was == nil || was.State != s.State {
		p.turned(s)
	}
	p.agrees(s)
	if pass := p.engine.pass; pass != nil && p.moving && s.State == stepplayer.Playing {
		if at, ok := p.position(); ok {
			pass.saw(at, p.before, p.now)
		}
	}
}

// way is how long a status is on the wire, in s.
func (p *player) way() float64 {
	if p.controller.Baud <= 0 {
		return 0
	}
	return float64(13+4*len(p.status.Steps)) * bitsPerByte / float64(p.controller.Baud)
}

// turned takes in that the player does something else now.
func (p *player) turned(s stepplayer.Status) {
	switch s.State {
	case stepplayer.Playing:
		if p.began.IsZero() { // or so many rows before, if that was not heard
			p.began = later(p.now.Add(-seconds(float64(s.Played)*p.tickSeconds())), p.went)
			if p.engine.pass != nil {
				p.engine.pass.anchorAt(p.began, -p.runUp+p.way())
			}
		}
	case stepplayer.Ended:
		p.over = p.now
	case stepplayer.Starved:
		if p.moving && !p.calming {
			p.fail(Behind, "it ran out of rows: the link or this computer is too slow")
		}
	case stepplayer.Alarm:
		if p.moving {
			p.fail(Alarmed, "a limit switch opened; it stopped by itself, and position is not to be trusted")
		}
	case stepplayer.Aborted:
		if p.moving && !p.crashed {
			p.fail(Alarmed, "it stopped at once, unasked; position is not to be trusted")
		}
	}
}
