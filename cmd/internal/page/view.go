package page

import (
	"math"
	"net/http"
	"path/filepath"

	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/export/report/planreport"
	"seamrail/motion/base/source"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/plan/judge"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// View is a planned shot as the page draws it. Frames are captured ones from
// frame 0; places mm or degrees.
type View struct {
	Title      string    `json:"title"`
	Plan       string    `json:"plan"` // hash of the motion
	Frames     int64     `json:"frames"`
	CaptureHz  float64   `json:"captureHz"`
	PlaybackHz float64   `json:"playbackHz"`
	LoopScreen float64   `json:"loopScreenSeconds"`
	LoopReal   float64   `json:"loopRealSeconds"`
	Timeline   int64     `json:"timelineFrames"`
	Rounds     int       `json:"rounds"`
	ByFrame    bool      `json:"byFrame"`  // the rig rests for each frame
	SyncMark   bool      `json:"syncMark"` // the rig tells the camera when it is
	Every      int64     `json:"every"`    // captured frames from one place of an axis to the next
	Axes       []Axis    `json:"axes"`
	Stands     []Stand   `json:"stands"`
	Above      *TopView  `json:"above"` // null where the shot has no scene to draw
	Verdicts   []Verdict `json:"verdicts"`
	Headline   Headline  `json:"headline"`
	ByHand     []string  `json:"byHand"`   // what is set and pressed on a rig that nothing is sent to; empty for one that is driven
	Cautions   []string  `json:"cautions"` // what to know before such a rig moves; one that is driven tells them as it is opened
	Values     []Value   `json:"values"`
	Loop       Handle    `json:"loop"`
}

// Axis is one axis over the loop.
type Axis struct {
	Name       string      `json:"name"`
	Unit       string      `json:"unit"`
	Kind       string      `json:"kind"`
	Move       string      `json:"move"`
	Law        string      `json:"law,omitempty"`
	LawTried   bool        `json:"lawTried,omitempty"` // fit tries others for it
	Pos        []float64   `json:"pos"`
	SpeedLimit float64     `json:"speedLimit"` // units a real second; 0 where none is stated
	Travel     *[2]float64 `json:"travel"`     // null where it is endless
	Handles    []Handle    `json:"handles"`
	MoveKeys   []Value     `json:"moveKeys"`
	Places     []Place     `json:"places"` // what its place can be marked as
}

// Stand is a display stand that turns by itself.
type Stand struct {
	Name    string    `json:"name"`
	Degrees []float64 `json:"pos"`
	Off     float64   `json:"off"` // degrees past its face at the seam
	Bound   float64   `json:"bound"`
}

// view plans a text for the page, but for what the controller makes of it. A
// quick one leaves out what would fit instead.
func (s *Server) view(text string, quick bool) (*View, error) {
	p, err := s.planned(text)
	if err != nil {
		return nil, err
	}
	t := p.Trajectory
	loop := p.Plan.Loop
	v := &View{
		Title: p.Plan.Title, Plan: p.Plan.Hash(), Frames: t.Captured(), CaptureHz: t.Clock().Capture.Float(), PlaybackHz: t.Clock().Playback.Float(),
		LoopScreen: loop.OnScreen().Float(), LoopReal: loop.Real().Float(), Timeline: loop.Screen, Rounds: p.Plan.Rounds, ByFrame: p.Schedule != nil, SyncMark: p.Shot.SyncMark != nil,
		Every: every(t.Captured()), Axes: []Axis{}, Stands: []Stand{}, Above: topView(p), ByHand: listOf(p.Plan.Presses(), func(s string) string { return s }), Cautions: []string{}, Values: values(p.Shot),
	}
	if len(v.ByHand) > 0 {
		v.Cautions = planreport.Cautions(p.Plan, p.Schedule)
	}
	v.Loop = Handle{Path: loopPath, Kind: "loop", Vary: move.VaryTime, Frame: float64(v.Frames), Label: "length of the loop", Unit: "frames"}
	for i := range t.AxisCount() {
		v.Axes = append(v.Axes, axisOf(p, i, v))
	}
	for i := range t.StandCount() {
		v.Stands = append(v.Stands, standOf(p, i, v))
	}
	v.Verdicts = verdicts(p, quick)
	v.Headline = headlineOf(p.Glanced, true)
	return v, nil
}

// Headline is what is said first, and at which level.
type Headline struct {
	Level string `json:"level"`
	Ready bool   `json:"ready"` // nothing keeps the rig from being driven
	Stamp string `json:"stamp"`
	Words string `json:"words"`
}

// headlineOf is the headline of a plan. While the controller is still being looked
// at, nothing is good.
func headlineOf(h judge.Headline, pending bool) Headline {
	level := map[judge.Tone]string{judge.Clear: good, judge.Minded: fair, judge.Barred: bad}[h.Tone]
	if level == fair && len(h.Fails) == 0 {
		level = unknown
	}
	if level == good && pending {
		level = unknown
	}
	return Headline{Level: level, Ready: h.Ready(), Stamp: h.Stamp, Words: h.Words}
}

// maxPlaces is far more places of an axis than a screen has pixels.
const maxPlaces = 6000

func every(captured int64) int64 { return captured/maxPlaces + 1 }

// sampled calls f with each captured frame that is drawn, the seam included.
func sampled(v *View, f func(frame int64)) {
	for k := int64(0); k < v.Frames; k += v.Every {
		f(k)
	}
	f(v.Frames)
}

func axisOf(p *job.Job, i int, v *View) Axis {
	t := p.Trajectory
	a, m := t.Axis(i), p.Plan.Axes[i].Move
	out := Axis{
		Places: placesOf(p, a.Name),
		Name:   a.Name, Unit: a.Unit(), Kind: a.Kind.String(), Move: m.Kind(), SpeedLimit: speedLimit(a),
		Handles: handles(p, i), MoveKeys: moveKeys(v.Values, m),
	}
	if out.Handles == nil {
		out.Handles = []Handle{}
	}
	if l := m.Law(); l != nil {
		out.Law = l.Name()
	}
	_, shuttles := m.Does.(move.Shuttle)
	out.LawTried = shuttles && p.Plan.Set == nil
	if !a.Endless {
		out.Travel = &[2]float64{a.Min, a.Max}
	}
	shown := t.Shown().Float()
	sampled(v, func(k int64) {
		sec := min(t.FrameSeconds(k).Float(), shown)
		out.Pos = append(out.Pos, t.Position(i, sec))
	})
	return out
}

func speedLimit(a rig.Axis) float64 {
	if math.IsInf(a.MaxSpeed, 1) {
		return 0
	}
	return a.MaxSpeed
}

func standOf(p *job.Job, i int, v *View) Stand {
	t := p.Trajectory
	s := t.Stand(i)
	out := Stand{Name: s.Name, Off: s.Off.Float(), Bound: s.Bound.Float()}
	sampled(v, func(k int64) { out.Degrees = append(out.Degrees, t.StandAngle(i, k).Float()) })
	return out
}

// moveKeys are the values of an axis' move: those that are there, and those it
// could have.
func moveKeys(have []Value, m shot.AxisMove) []Value {
	group := source.Join("axis", m.Name)
	out := []Value{}
	there := map[string]bool{}
	for _, v := range have {
		if v.Group == group {
			out, there[v.Label] = append(out, withLaws(v)), true
		}
	}
	for _, key := range move.KeysOf(m.Does) {
		if v, ok := absent(group, key); ok && !there[key] {
			out = append(out, withLaws(v))
		}
	}
	return out
}

// withLaws gives a law its choices, which no schema lists.
func withLaws(v Value) Value {
	if v.Label == "law" || v.Label == "back-law" {
		v.Choices = law.Names()
	}
	return v
}

// Curve is the shape of a law: shares of time and of travel.
type Curve struct {
	Name  string       `json:"name"`
	Curve [][2]float64 `json:"curve"`
}

// curvePieces is enough for a small picture of a law.
const curvePieces = 40

func lawCurves() []Curve {
	var out []Curve
	for _, l := range law.All() {
		c := Curve{Name: l.Name()}
		for i := range curvePieces + 1 {
			u := float64(i) / curvePieces
			c.Curve = append(c.Curve, [2]float64{u, l.At(u).S})
		}
		out = append(out, c)
	}
	return out
}

// Start is what the page begins with.
type Start struct {
	File     string  `json:"file"`
	Folder   string  `json:"folder"`
	Text     string  `json:"text"`
	Revision string  `json:"revision"`
	New      bool    `json:"new"` // there is no file yet; saving makes it
	Title    string  `json:"title"`
	Version  string  `json:"version"`
	RigFile  string  `json:"rigFile"`
	RigText  string  `json:"rigText"`
	Laws     []Curve `json:"laws"`
	Virtual  bool    `json:"virtual"`
	Ports    []Port  `json:"ports"`
}

func (s *Server) start(w http.ResponseWriter, _ *http.Request) {
	d, err := s.doc.disk()
	if err != nil {
		fail(w, err)
		return
	}
	out := Start{
		File: s.doc.name, Folder: filepath.Base(absolute(s.doc.root.Name())), Text: d.Text, Revision: d.Revision, New: d.Revision == "",
		Title: s.doc.name, Version: s.version, Laws: s.curves, Virtual: true, Ports: ports(),
	}
	if x, err := s.doc.files().Decode(s.doc.name, []byte(d.Text), nil); err == nil {
		out.Title, out.RigFile = x.Title, s.doc.rigName(x)
		if data, err := s.doc.rigText(out.RigFile); err == nil && s.doc.rig == nil {
			out.RigText = string(data)
		}
	}
	reply(w, http.StatusOK, out)
}

func absolute(dir string) string {
	if abs, err := filepath.Abs(dir); err == nil {
		return abs
	}
	return dir
}

// Port is a serial port and what the system knows of it.
type Port struct {
	Name  string `json:"name"`
	About string `json:"about"`
}

// ports are the serial ports of this machine, none where the system does not tell.
func ports() []Port {
	list, _ := host.Ports()
	return listOf(list, func(p host.PortFacts) Port { return Port{Name: p.Name, About: p.About()} })
}
