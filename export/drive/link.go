package drive

import "time"

// link is what is known of the way between this computer and the controller:
// when bytes are across, and how much longer answers take than their bytes.
//
// Instants of the controller are told as they would be heard here if a byte took
// no time: what an answer takes besides its bytes, and is the same for all, is
// in each of them and falls out of what lies between two.
type link struct {
	perByte time.Duration // 0 = not known to take any time
	across  time.Time     // when all that the wire has taken is
	begun   time.Time     // when the last line from the controller began
	heard   time.Time     // when it ended
	burst   time.Time     // when the lines began that came without a gap up to it
	blind   time.Time     // since when this computer was not looking, until just now; zero = it was
	count   int           // lines heard

	// What those take besides their bytes: reports and prompt answers on a wire
	// that was silent, and lines of a take from when they were there.
	reports, answers, lines spread
}

const (
	// gapBytes is the pause between two lines, in bytes and beyond hostGrain, from
	// which on the second has not waited for the first: a line end may be of two.
	gapBytes = 3
	// hostGrain is how far the times of two answers may be out against each other
	// without that showing in any other: a serial adapter hands over what it has
	// once a frame of 1 ms (Universal Serial Bus Specification 2.0, section
	// 8.4.3.1, full speed).
	hostGrain = time.Millisecond
)

func newLink(baud int) link {
	if baud <= 0 {
		return link{}
	}
	return link{perByte: time.Duration(bitsPerByte * float64(time.Second) / float64(baud))}
}

// bytes is how long so many bytes are on the wire.
func (l *link) bytes(n int) time.Duration { return time.Duration(n) * l.perByte }

// sent says that the wire has taken n bytes now.
func (l *link) sent(n int64, now time.Time) {
	l.across = later(l.across, now).Add(l.bytes(int(n)))
}

// hears says that a line of n bytes has been heard whose first came at since. The
// first tells best: it has waited for no other at the adapter.
func (l *link) hears(n int, since time.Time) {
	l.begun = since.Add(-l.bytes(1))
	if l.count == 0 || l.begun.Sub(l.heard) > l.bytes(gapBytes)+hostGrain {
		l.burst = l.begun
	}
	l.heard = since.Add(l.bytes(n - 1))
	l.count++
}

// wakes says that a wait from one instant to another at most is over now. One that is
// over later has not been looking: what is heard then may have come at any time of it.
func (l *link) wakes(from, limit, now time.Time) {
	l.blind = time.Time{}
	if now.Sub(limit) > hostGrain {
		l.blind = from
	}
}

// said brackets when the controller has said the line heard last: when its first
// byte came, or as early as the lines before it, if it has waited for those.
func (l *link) said() span {
	if !l.blind.IsZero() {
		return span{earlier(l.burst, l.blind), l.begun, l.begun}
	}
	return span{l.burst, l.begun, l.begun}
}

// jitter is by how much the times of two answers may be out against each other.
func (l *link) jitter() time.Duration {
	of := &l.reports
	if of.n == 0 {
		of = &l.answers
	}
	return max(hostGrain, of.most-of.least)
}

// work estimates how long the controller needs for a line: what an answer takes
// longer than a report. Lines of a take may wait for room, and modes are quicker
// to read than moves, so that it is the less of both.
func (l *link) work() time.Duration {
	if l.reports.n == 0 || l.answers.n == 0 {
		return 0
	}
	least := l.answers.usual()
	if l.lines.n > 0 {
		least = min(least, l.lines.usual())
	}
	return max(least-l.reports.usual(), 0)
}

// okBytes is an answer on the wire, with its line end.
const okBytes = 4

// hasRead brackets when the controller had read so many lines after from, the
// last of which it answered at said. Where the answers have come as close as the
// wire carries them, it may have been done long before it could say so. An adapter
// that hands over several together makes it seem a little early.
func (l *link) hasRead(from, said span, lines int) span {
	by := said.at.Add(hostGrain)
	if lines == 0 || said.at.Sub(from.at) > l.bytes(okBytes*lines)+hostGrain {
		return span{said.at, said.at, by}
	}
	each := min(l.work(), max(by.Sub(from.at), 0)/time.Duration(lines))
	latest := by
	if most := l.answers.most; l.answers.n > 0 {
		latest = earlier(latest, from.latest.Add(most*time.Duration(lines)))
	}
	return span{from.earliest, from.at.Add(each * time.Duration(lines)), latest}
}

// spread is how much several durations differ.
type spread struct {
	n           int
	least, most time.Duration
	kept        []time.Duration // the first of them
}

// maxKept is how many durations are kept of a spread: their mean is then good
// to a tenth of what they differ by.
const maxKept = 100

func (s *spread) add(d time.Duration) {
	if s.n == 0 {
		s.least, s.most = d, d
	}
	s.n++
	s.least, s.most = min(s.least, d), max(s.most, d)
	if len(s.kept) < maxKept {
		s.kept = append(s.kept, d)
	}
}

// usual is the mean of those that are as short as the shortest but for the grain
// of the adapter.
func (s *spread) usual() time.Duration {
	sum, n := time.Duration(0), time.Duration(0)
	for _, d := range s.kept {
		if d <= s.least+hostGrain {
			sum, n = sum+d, n+1
		}
	}
	return sum / max(n, 1)
}

// span is an instant of which bounds are known.
type span struct{ earliest, at, latest time.Time }

// within keeps the instant within its bounds.
func (s span) within() span {
	s.at = earlier(later(s.at, s.earliest), s.latest)
	return s
}

// add moves the instant.
func (s span) add(d time.Duration) span {
	return span{s.earliest.Add(d), s.at.Add(d), s.latest.Add(d)}
}

// between returns the time from one instant to the other, and how far it may be
// out.
func between(from, to span) (lasts, doubt time.Duration) {
	lasts = to.at.Sub(from.at)
	longest, shortest := to.latest.Sub(from.earliest), to.earliest.Sub(from.latest)
	return lasts, max(longest-lasts, lasts-shortest)
}
