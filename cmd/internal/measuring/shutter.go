package measuring

import (
	"fmt"
	"math"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/calibrate"
	"seamrail/motion/spec/setup"
)

// tries is how often the shutter is released.
const tries = 5

// lagKey is the key of a camera file.
const lagKey = "shutter-lag"

// shutter finds how late the shutter of the camera is.
func (w *Walk) shutter() (*Found, error) {
	how, err := w.Ask.ask(question{key: "how", usual: "counter", picture: shutterPicture, check: func(text string) error {
		if text != "counter" && text != "frames" {
			return fmt.Errorf("counter or frames")
		}
		return nil
	}, words: "A shutter photographs a running counter, which is read as it is released and in the picture. A recorder films a lamp that is lit a known time after it was told to record. Which?"})
	if err != nil {
		return nil, err
	}
	readings := calibrate.LagReadings{}
	if how == "counter" {
		err = w.byCounter(&readings)
	} else {
		err = w.byFrames(&readings)
	}
	if err != nil {
		return nil, err
	}
	mean, single, err := readings.Lag()
	if err != nil {
		return doubtful(err), nil
	}
	f := &Found{Value: mean, Unit: "s"}
	f.tell("late by", "%s s, give or take %.2g (95 %%)", known(mean.Value, mean.Sigma), mean.Bound())
	f.tell("each time", "give or take %.2g s: no line can take that off", single.Bound())
	data, _ := w.cameraData()
	old, _ := source.Value(data, lagKey)
	f.line(lagKey, old, known(math.Max(mean.Value, 0), mean.Sigma)+" s")
	return f, nil
}

func (w *Walk) byCounter(r *calibrate.LagReadings) error {
	q, err := w.time(question{key: "step", usual: "0.01 s", words: "What does the counter count in?"}, false)
	if err != nil {
		return err
	}
	r.Grain, r.Pairs = q, true
	for i := range tries {
		at, err := w.time(question{key: "signal", words: fmt.Sprintf("%d of %d. What did it show at the release, by the rig's own lamp beside it or by a picture of both?", i+1, tries)}, true)
		if err != nil {
			return err
		}
		shown, err := w.time(question{key: "picture", words: "And in the picture?"}, true)
		if err != nil {
			return err
		}
		r.Seconds = append(r.Seconds, shown-at)
	}
	return nil
}

func (w *Walk) byFrames(r *calibrate.LagReadings) error {
	var rate float64
	if _, err := w.Ask.ask(question{key: "rate", words: "At what rate does it record, such as 119.88?", check: func(text string) error {
		q, err := clock.ParseRate(text)
		rate = q.Float()
		return err
	}}); err != nil {
		return err
	}
	r.Grain = 1 / rate
	angle, err := w.Ask.quantity(question{key: "open", usual: "180 deg", words: "For how much of each frame is its shutter open? 360 deg is all of it."}, 0, fullTurn, unit.Angle)
	if err != nil {
		return err
	}
	lit, err := w.time(question{key: "lit", words: "How long after it was told to record was the lamp lit?"}, true)
	if err != nil {
		return err
	}
	for i := range tries {
		q, err := w.Ask.quantity(question{key: "frame", words: fmt.Sprintf("%d of %d. In which frame of the clip is the lamp first lit? The first is 0, written \"0 frames\".", i+1, tries)}, 0, longest*rate, unit.Frames, unit.Number)
		if err != nil {
			return err
		}
		r.Seconds = append(r.Seconds, calibrate.ByFrames(lit, int64(math.Round(q.Float())), angle.Float()/fullTurn, rate))
	}
	return nil
}

// longest is how long a counter runs, in s: beyond a day it is no counter.
const longest = 86_400

// time asks for a time.
func (w *Walk) time(q question, zero bool) (float64, error) {
	low := 1e-6
	if zero {
		low = 0
	}
	got, err := w.Ask.quantity(q, low, longest, unit.Time)
	return got.Float(), err
}

// camera is an error where a file is no sound camera.
func camera(file string) func([]byte) error {
	return func(data []byte) error {
		report := &source.Report{File: file}
		source.Read(data, nil, &setup.RawCamera{}, report)
		return report.Faults.Err()
	}
}
