package measuring

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/vibration/ringdown"
	"seamrail/motion/vibration/spring"
)

const (
	// stops is how often it is stopped there, and back again: over ways of other lengths,
	// since a start and a stop may cancel what they shake.
	stops = 4
	// shortestStop is the way before the first, in mm or degrees.
	shortestStop = 10
	// stopStretch is the longest way, unless the person says otherwise.
	stopStretch = 80
	// ringing is how long it is let ring after each, in s: twice what a swing of 2 Hz
	// and 2 % takes to fall to a fifth.
	ringing = 3
)

// swing finds how what the axis carries swings, from a phone's record of stops, or of a
// knock.
func (w *Walk) swing() (*Found, error) {
	how, err := w.how()
	if err != nil {
		return nil, err
	}
	switch how {
	case "sweep":
		return w.swept()
	case "sweep made earlier":
		return w.readLater()
	}
	var record ringdown.Record
	if w.hand != nil {
		record, err = w.stopped()
	} else {
		record, err = w.recorded("What does the phone's file of the knock say? Its name")
	}
	if err != nil {
		return nil, err
	}
	column := record.Liveliest()
	m, err := ringdown.FromRecord(record, column)
	if err != nil {
		return doubtful(err), nil
	}
	f := &Found{Unit: "Hz"}
	f.Value.Value, f.Value.Sigma = m.Spring.Frequency, m.FrequencySure
	f.tell("frequency", "%s Hz, give or take %.2g (95 %%)", known(m.Spring.Frequency, m.FrequencySure), f.Value.Bound())
	f.tell("damping", "%.3g %%", 100*m.Spring.Damping)
	f.tell("seen", "%.3g to %.3g s of the record, of whose movement one swing explains %.0f %%", m.From, m.To, 100*m.Explained)
	w.lines(f, m.Spring, m.FrequencySure)
	return f, nil
}

// how is how the swing is found: by a sweep, by stops, or of a record that is there.
func (w *Walk) how() (string, error) {
	switch {
	case w.hand == nil && w.Sweep == "":
		return "knock", nil
	case !w.rig.Controller.Kind.Driven():
		return "", exit.Misused("the rig is set and started by hand, and cannot be swept; let it stop, or knock, and read the record without --sweep")
	case w.hand == nil:
		return "sweep made earlier", nil
	}
	return w.Ask.ask(question{key: "how", usual: w.usually(), picture: sweepPicture, check: func(text string) error {
		if text != "sweep" && text != "stops" {
			return fmt.Errorf("sweep or stops")
		}
		return nil
	}, words: "By a few stops, which takes half a minute and shows the swing that stops wake, or by a sweep over frequencies, which takes minutes and shows each resonance with how far it goes?"})
}

// usually is how the swing is found where nothing else is said.
func (w *Walk) usually() string {
	if w.Sweep != "" {
		return "sweep"
	}
	return "stops"
}

// recorded reads the file that was named, or is asked for.
func (w *Walk) recorded(words string) (r ringdown.Record, err error) {
	name := w.Record
	if name == "" {
		if name, err = w.Ask.ask(question{key: "record", file: true, picture: swingPicture, words: words}); err != nil {
			return r, err
		}
	}
	text, err := textfile.Record(name)
	if err != nil {
		return r, err
	}
	if r, err = ringdown.ParseRecord(text); err != nil {
		return r, fmt.Errorf("%s: %w", name, err)
	}
	return r, nil
}

// stopped shakes the frame by gentle moves that stop, each a knock, while a phone records.
func (w *Walk) stopped() (ringdown.Record, error) {
	var none ringdown.Record
	low, high := w.ends()
	from, err := w.placeOf("from", "It goes gently and stops, again and again, and rings. Between which places? From", low+w.inset(), low, high-shortestStop)
	if err != nil {
		return none, err
	}
	to, err := w.placeOf("to", "to", from+stopStretch, from+shortestStop, high)
	if err != nil {
		return none, err
	}
	if err := w.begin(); err != nil {
		return none, err
	}
	if err := w.recording(); err != nil {
		return none, err
	}
	since := 0.0
	if w.hand.made != nil {
		since = w.hand.made.Now().Seconds()
	}
	for i := range stops {
		far := from + shortestStop + (to-from-shortestStop)*float64(i)/(stops-1)
		for _, at := range []float64{far, from} {
			if err := w.hand.to(at); err != nil {
				return none, err
			}
			if err := w.hand.take(w.hand.stays(at, ringing)); err != nil {
				return none, err
			}
		}
		w.Ask.say("  %d of %d: stopped after %s, there and back", i+1, stops, w.quantityOf(roundTo(far-from, 3)))
	}
	if w.hand.made != nil {
		return w.felt(since)
	}
	return w.recorded("Stop the record and copy it to this computer. What is the file called?")
}

// The phone of a rig of software.
const (
	feltEvery  = 0.005  // s from sample to sample
	feltWithin = 0.0005 // s from one look at the carriage to the next
	feltGrain  = 2      // mm/s² that it tells apart: a five-thousandth of gravity
)

// felt is what a phone would have recorded on a rig of software since then: the swing that
// its file states, pushed step by step by where its motor went.
func (w *Walk) felt(since float64) (r ringdown.Record, err error) {
	s, err := w.software()
	if err != nil {
		return r, err
	}
	d, i := w.hand.made.Record(), w.hand.index()
	drag := 2 * s.Damping * s.Omega()
	free, beside := s.Free(feltWithin), spring.State{}
	r.Series, r.Names = make([][]float64, 1), []string{"rail"}
	was := d.At(since)[i]
	for n := 0; ; n++ {
		t := float64(n) * feltWithin
		if since+t > w.hand.made.Now().Seconds() {
			return r, nil
		}
		at := d.At(since + t)[i]
		beside = free.Times(beside).Plus(spring.State{Pos: was - at, Vel: drag * (at - was)})
		was = at
		if n%int(feltEvery/feltWithin) == 0 {
			acc := -s.Omega()*s.Omega()*beside.Pos - drag*beside.Vel
			r.Times, r.Series[0] = append(r.Times, t), append(r.Series[0], math.Round(acc/feltGrain)*feltGrain)
		}
	}
}

// software is how the load of a rig of software swings.
func (w *Walk) software() (spring.Spring, error) {
	s := w.axis.Shake.Spring
	if w.Port.Truth != nil {
		if a, ok := w.Port.Truth.Axis(w.axis.Name); ok {
			s = a.Shake.Spring
		}
	}
	if !s.Known() {
		return s, fmt.Errorf("the rig of software swings only where its file says how: shake = { frequency = \"6 Hz\", damping = \"3 %%\" }, in that of --truth if there is one")
	}
	return s, nil
}
