// Package planreport reports what a plan will do, how close it comes to the limits
// and whether it closes. Like its neighbours it has the word report in its name,
// so that it stands beside the package whose values it tells of.
package planreport

import (
	"fmt"

	"seamrail/export/report"
	"seamrail/export/report/musicreport"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/stepwise"
	"seamrail/motion/scene"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

// Data is what there is to tell.
type Data struct {
	Plan     *plan.Plan
	Verified verify.Verdict
	// Fits say in words what would fit instead; for a plan that does not.
	Fits []string
	// Controller is what the rig's controller is expected to make of the take;
	// nil where nothing was foretold.
	Controller *ontime.Prediction
	// Picture is what the move does to the picture; nil where the shot says
	// nothing of camera and scene.
	Picture *picture.Report
	// Schedule is how the shot is taken frame by frame; nil where the camera runs.
	Schedule *stepwise.Schedule
	// Headline is what is said first, and Others the verdicts that are none of the
	// picture's.
	Headline judge.Headline
	Others   []picture.Verdict
	// Scene is what the picture is made with; nil as Picture is.
	Scene *scene.Scene
	// Mark is how the rig tells the camera when it is, nil where the shot does not say; Eye
	// is after how many captured frames the picture has then moved, 0 where not known.
	Mark *syncmark.Mark
	Eye  int64
	// Laid is what lies under the shot file.
	Laid shot.Laid
	// Shakes are the axes whose swing is known, with what the move does to it.
	Shakes []survey.Axis
}

// page is a report being made.
type page struct {
	report.Report
	d  Data
	pl *plan.Plan
}

// Report tells it to people.
func (d Data) Report() report.Report {
	p := d.begin()
	pl := p.pl
	p.loop()
	musicreport.Section(&p.Report, pl.Music, &pl.Loop)
	p.take()
	p.mark()
	p.byFrame()
	for i := range pl.Axes {
		p.axis(&pl.Axes[i], i)
	}
	p.byHand()
	p.motors()
	p.controller()
	p.picture()
	p.shakes()
	for _, s := range pl.Stands {
		p.stand(s)
	}
	p.loops()
	p.setUp()
	p.Defaults(pl.Defaults)
	p.Named("cautions", "BEFORE IT MOVES")
	p.Bullets(report.Fair, "!", Cautions(pl, p.d.Schedule)...)
	return p.Report
}

// verdict comes first: whether to press the button, and what to mind.
func (p *page) verdict() {
	h := p.d.Headline
	p.Headline(report.JudgeTone(h.Tone), h.Stamp, h.Words)
	if h.Ready() {
		return
	}
	breaches := judge.Apart(p.pl.Breaches())
	for _, b := range breaches {
		f := p.pl.Fault(b)
		f.File, f.Line, f.Column = "", 0, 0
		p.Bullets(report.Poor, "x", f.String())
	}
	if len(breaches) == 0 {
		for _, f := range p.d.Verified.Failed() {
			p.Bullets(report.Poor, "x", axisText(f))
		}
	} else if p.d.Picture != nil {
		p.Bullets(report.Poor, "x", picturereport.Blocks(*p.d.Picture)...)
	}
	p.Bullets(report.Good, "+", p.d.Fits...)
}

func axisText(f verify.Finding) string {
	if f.Axis == "" {
		return f.Check + ": " + f.Text
	}
	return "axis " + f.Axis + ": " + f.Check + ": " + f.Text
}

func (p *page) loop() {
	l, c := p.pl.Loop, p.pl.Loop.Clock
	p.Section("LOOP")
	p.Field("asked for", l.Asked)
	became := fmt.Sprintf("%s, %s on screen", plain.Count(l.Screen, "frame"), seconds(l.OnScreen()))
	if l.Rounded {
		became += ", the nearest whole loop"
	}
	p.Field("became", became)
	p.Field("captured", fmt.Sprintf("%s in %s of real time", plain.Count(l.Captured, "frame"), seconds(l.Real())))
	if least := p.pl.Bound; least > 0 { // how far the quickest pace is from what no pace can pass
		p.Field("at least", fmt.Sprintf("%.3f s along the same way within speed and acceleration, whatever the jerk; the quickest with it is not proven: of random paths nearly all came within 3 %% of the best found otherwise, the worst within 14 %%", least))
	}
	deliver, never := delivered(p.pl)
	why := "it is frame 0 again, and the loop would hitch"
	if p.pl.Back > 0 {
		why = "the rig is on its way back"
	}
	p.Field("deliver", deliver)
	p.Field("never", "deliver "+never+": "+why)
	p.Field("capture", clock.RateText(c.Capture)+" frames/s")
	p.Field("playback", clock.RateText(c.Playback)+" frames/s")
	p.Field("pace", fmt.Sprintf("retime %s, %s", c.Retime, pace(c.Retime)))
	p.Field("cadence", c.Cadence().Text)
}
