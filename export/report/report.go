package report

import (
	"fmt"
	"io"

	"seamrail/export/textpage"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/picture"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

// Options says how the report is dressed.
type Options struct {
	Colour bool     // ANSI colours and drawn bars, for a terminal
	Fits   []string // what would fit instead, in words; for a plan that does not
	// Controller is what the rig's controller is expected to make of the take;
	// nil where nothing was foretold.
	Controller *ontime.Prediction
	// Picture is what the move does to the picture; nil where the shot says
	// nothing of camera and scene.
	Picture *picture.Report
	// Headline is what is said first, and Others the verdicts that are none of the
	// picture's.
	Headline judge.Headline
	Others   []picture.Verdict
	// Shakes are the axes whose swing is known, with what the move does to it.
	Shakes []survey.Axis
}

// Write writes the report as text of at most 80 columns, plain unless
// opt.Colour. The error is the writer's.
func Write(w io.Writer, pl *plan.Plan, v verify.Verdict, opt Options) error {
	p := &page{textpage.Page{Colour: opt.Colour}}
	p.title(pl)
	p.verdict(pl, v, opt)
	p.loop(pl)
	p.take(pl)
	for i := range pl.Axes {
		p.axis(pl, &pl.Axes[i], v, i)
	}
	p.motors(pl)
	p.controller(opt.Controller)
	p.others(opt.Others)
	p.picture(opt.Picture)
	p.shakes(pl, opt.Shakes)
	for _, s := range pl.Stands {
		p.stand(pl, s)
	}
	p.loops(pl)
	p.defaults(pl.Defaults)
	p.cautions(pl)
	_, err := p.WriteTo(w)
	return err
}

func (p *page) title(pl *plan.Plan) {
	for _, l := range textpage.Fold(clean(pl.Title), textpage.Width) {
		p.Line(p.Paint(bold+";"+cyan, l))
	}
	p.Line(p.Paint(dim, clean(pl.Rig.Name)+" · plan "+pl.Hash()))
}

func (p *page) loop(pl *plan.Plan) {
	l := pl.Loop
	c := l.Clock
	p.Section("LOOP")
	p.Field("asked for", l.Asked)
	became := fmt.Sprintf("%s, %s on screen", counted(l.Screen, "frame"), seconds(l.OnScreen()))
	if l.Rounded {
		became += ", the nearest whole loop"
	}
	p.Field("became", became)
	p.Field("captured", fmt.Sprintf("%s in %s of real time", counted(l.Captured, "frame"), seconds(l.Real())))
	p.quickest(pl)
	p.Field("deliver", deliverWords(l.Captured))
	p.Field("never", neverWords(pl))
	p.Field("capture", clock.RateText(c.Capture)+" frames/s")
	p.Field("playback", clock.RateText(c.Playback)+" frames/s")
	p.Field("pace", fmt.Sprintf("retime %s, %s", c.Retime, pace(c.Retime)))
	p.Field("cadence", c.Cadence().Text)
}

func deliverWords(captured int64) string {
	if captured == 1 {
		return "frame 0"
	}
	return fmt.Sprintf("frames 0 to %d", captured-1)
}

func (p *page) defaults(defaults []source.Default) {
	if len(defaults) == 0 {
		return
	}
	p.Section("FILLED IN FOR YOU")
	for _, d := range defaults {
		text := clean(d.Key) + " = " + clean(d.Value)
		if d.Why != "" {
			text += ": " + clean(d.Why)
		}
		p.Bullet(dim, "-", text)
	}
}

func (p *page) cautions(pl *plan.Plan) {
	p.Section("BEFORE IT MOVES")
	for _, c := range Cautions(pl) {
		p.Bullet(yellow, "!", clean(c))
	}
}
