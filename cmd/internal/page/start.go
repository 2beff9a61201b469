package page

import (
	"net/http"
	"path/filepath"

	"seamrail/cmd/internal/host"
	"seamrail/motion/law"
	"seamrail/motion/spec/shot"
)

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
	if x, err := shot.Decode(s.doc.name, []byte(d.Text), nil); err == nil {
		out.Title, out.RigFile = x.Title, x.RigFile
		if data, err := s.doc.rigText(x.RigFile); err == nil && s.doc.rig == nil {
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
	out := []Port{}
	list, err := host.Ports()
	if err != nil {
		return out
	}
	for _, p := range list {
		out = append(out, Port{Name: p.Name, About: p.About()})
	}
	return out
}
