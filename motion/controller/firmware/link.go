package firmware

// Link is the way a line takes to the board. The zero value is one that is
// never late.
type Link struct {
	Baud    int     // bits/s; 0 = at once
	Receive int     // characters the host may have unanswered; 0 = any number
	Reply   Instant // from an answer to the next line that waits for it
	Single  bool    // one line, one answer
}

const (
	// bitsPerChar are a start bit, eight bits and a stop bit.
	bitsPerChar = 10
	// answerChars are those of "ok" and a line end of two.
	answerChars = 4
)

// wire works out when each line is on the board.
type wire struct {
	Link
	perChar Instant
	free    Instant // when the wire to the board is free
	held    int     // characters sent and not answered
	sent    []sent  // lines under way or unanswered, the oldest first
	first   int
	back    Instant // when the wire from the board is free
	told    Instant // when the last answer reached the host
}

type sent struct {
	chars int
	there Instant // when its last character is on the board
}

func newWire(l Link) *wire {
	w := &wire{Link: l}
	if l.Baud > 0 {
		w.perChar = Second * bitsPerChar / Instant(l.Baud)
	}
	return w
}

// fits tells whether the host may send a line of so many characters now.
func (w *wire) fits(chars int) bool {
	return w.first == len(w.sent) || !w.Single && (w.Receive == 0 || w.held+chars <= w.Receive)
}

// send puts a line on the wire as soon as the host can.
func (w *wire) send(chars int) {
	at := max(w.free, w.told)
	w.free = at + w.perChar*Instant(chars)
	w.held += chars
	w.sent = append(w.sent, sent{chars, w.free})
}

// answer is called when the board has taken the oldest line, at now.
func (w *wire) answer(now Instant) {
	w.held -= w.sent[w.first].chars
	w.first++
	w.back = max(w.back, now) + answerChars*w.perChar
	w.told = w.back + w.Reply
	if w.first > len(w.sent)/2 {
		w.sent = append(w.sent[:0], w.sent[w.first:]...)
		w.first = 0
	}
}
