package session

import (
	"fmt"
	"strings"

	"seamrail/cmd/internal/console"
	"seamrail/cmd/internal/places"
	"seamrail/cmd/internal/textfile"
)

// onDisk is the text of the shot; nil where there is no file.
func (o *Options) onDisk() *[]byte {
	if o.Source.Shot == "" || o.Source.Shot == textfile.Stdin {
		return nil
	}
	data, err := textfile.Read(o.Source.Shot)
	if err != nil {
		return nil
	}
	return &data
}

// places are what an axis can be marked as.
func (s *session) places(axis int) []console.Place {
	j := s.now.Load()
	var out []console.Place
	for _, p := range places.On(places.Of(j), j.Plan.Axes[axis].Rig.Name) {
		out = append(out, console.Place{Name: p.Name, Words: fmt.Sprintf("%s (%s now)", p.Means, p.Now)})
	}
	return out
}

// placed finds a place of an axis, by its name or by what it is to the move.
func (s *session) placed(name string, axis int) (places.Place, error) {
	j := s.now.Load()
	all, of := places.Of(j), j.Plan.Axes[axis].Rig.Name
	if name == console.Start || name == console.End {
		return places.ByRole(all, of, name == console.End)
	}
	return places.Find(all, of, name)
}

// mark writes where an axis stands into the shot. What would make the plan one that the
// rig cannot run is told first, with what would fit, and is for the operator to say.
func (s *session) mark(name string, axis int, at float64) (console.Marking, error) {
	p, err := s.placed(name, axis)
	if err != nil {
		return console.Marking{}, err
	}
	var known []byte
	if text := s.text.Load(); text != nil {
		known = *text
	}
	c, err := places.Try(s.o.Source, p, at, known)
	if err != nil {
		return console.Marking{}, err
	}
	write := func() (string, error) {
		text, err := c.Write()
		if err != nil {
			return "", err
		}
		s.text.Store(&text)
		s.changed.Store(s.changed.Load() || !c.Same())
		return c.Words(), nil
	}
	if len(c.Wrong) > 0 {
		return console.Marking{Text: strings.Join(append(c.Doubts(), "It is not written yet."), "\n"), Write: write}, nil
	}
	text, err := write()
	return console.Marking{Text: text}, err
}
