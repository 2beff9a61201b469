package drive

import (
	"strings"

	"seamrail/export/drive/stepplayer"
)

// heard takes bytes in, both as lines and as frames: which of the two it speaks is what
// is to be found out.
func (q *inquiry) heard(b []byte) {
	q.at = q.now
	q.bytes += len(b)
	q.reader.Add(b)
	for f, ok := q.reader.Next(); ok; f, ok = q.reader.Next() {
		q.frame(f)
	}
	for _, c := range b {
		if !readable(string(c)) && c != '\r' && c != '\n' {
			q.strange++
		}
	}
	q.lines.now = q.now
	q.lines.add(b, q.line)
}

// frame takes in what only a step player says.
func (q *inquiry) frame(f stepplayer.Frame) {
	switch f.Type {
	case stepplayer.HelloAnswer:
		if info, err := stepplayer.ReadPlayer(f.Payload); err == nil {
			q.info = &info
			q.frames++
		}
	case stepplayer.StatusNow:
		if s, err := stepplayer.ReadStatus(f.Payload); err == nil {
			q.player = &s
			q.frames++
		}
	case stepplayer.Refused, stepplayer.Ack:
		q.frames++
	case stepplayer.Hello:
		q.echoed = true
	}
}

// line takes in a line of words.
func (q *inquiry) line(text []byte) {
	// A line that is too long comes cut, with a byte that cannot be read: what a board
	// says of itself at length is kept as far as it goes.
	r := parse([]byte(strings.TrimSuffix(string(text), "\x00")), "")
	switch r.kind {
	case answer:
		q.oks++
		q.answers++
	case refusal:
		q.refused = r.text
		q.answers++
	case alarm:
		q.board.Alarm = true
	case report:
		q.status = &r.status
	case talk:
		q.talk = append(q.talk, r.text)
		if r.text == string(rune(statusByte)) {
			q.echoed = true
		}
		if q.stranger == "" {
			q.stranger = r.text
		}
	}
}
