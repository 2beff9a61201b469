package shot

import (
	"fmt"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
)

// What an axis does to the picture, as the file names it.
const (
	slideRole = "slide"
	tableRole = "table"
	panRole   = "pan"
	tiltRole  = "tilt"
	focusRole = "focus"
	noRole    = "none"
)

func roles() []string {
	return []string{slideRole, tableRole, panRole, tiltRole, focusRole, noRole}
}

// RawRole is a [scene.axis.NAME] table.
type RawRole struct {
	Place      source.Place   `toml:"-"`
	Without    source.Without `toml:"without" jsonschema_description:"What set-ups say of this axis is taken out: all of it (true), or some of its keys (a list)."`
	Role       source.Text    `toml:"role" jsonschema:"enum=slide,enum=table,enum=pan,enum=tilt,enum=focus,enum=none" jsonschema_description:"What it does: carries the camera, turns the product, turns or tilts the camera, sets the focus in mm from the lens, or nothing that shows."`
	Heading    source.Text    `toml:"heading" jsonschema:"example=push-in,example=right,example=30 deg" jsonschema_description:"slide: which way it carries the camera as its numbers grow: push-in, pull-back, left, right, or degrees to the left of straight on."`
	Rise       source.Text    `toml:"rise" jsonschema:"example=0 deg" jsonschema_description:"slide: how steeply it climbs."`
	MeasuredAt source.Text    `toml:"measured-at" jsonschema:"example=40 mm" jsonschema_description:"slide: where it stood when the scene was measured."`
}

// axes gives every axis of the shot its part in the picture.
func (l *sceneReader) axes(raw map[string]RawRole, moves []AxisMove) {
	for _, name := range source.InOrder(raw, func(r RawRole) source.Place { return r.Place }) {
		l.known(name, raw[name], moves)
	}
	for _, m := range moves {
		r, stated := raw[m.Name]
		l.path = "scene.axis." + m.Name + "."
		l.axis(m, r, stated)
	}
}

// known reports the name of an axis that the shot does not have. What a set-up says is for
// all shots of a table, whichever axes each of them has.
func (l *sceneReader) known(name string, r RawRole, moves []AxisMove) {
	names := make([]string, len(moves))
	for i, m := range moves {
		if names[i] = m.Name; m.Name == name {
			return
		}
	}
	if r.Place.File != "" {
		l.Default("scene.axis."+name, "left out", "this shot has no such axis; "+r.Place.File+" speaks of it")
		return
	}
	l.Add(r.Place, "scene.axis."+name, "", "is no axis of this shot", "it has "+strings.Join(names, ", "))
}

func (l *sceneReader) axis(m AxisMove, r RawRole, stated bool) {
	role := l.role(m, r)
	s := &l.scene.Stand
	switch role {
	case slideRole:
		s.Slides = append(s.Slides, l.slide(m.Name, r))
	case tableRole:
		l.only(&s.TableAxis, m, r)
	case panRole:
		l.only(&s.PanAxis, m, r)
	case tiltRole:
		l.only(&s.TiltAxis, m, r)
	case focusRole:
		l.only(&s.FocusAxis, m, r)
	}
	if role != slideRole && role != "" && stated {
		for key, t := range map[string]source.Text{"heading": r.Heading, "rise": r.Rise, "measured-at": r.MeasuredAt} {
			if t.Set {
				l.Wrong(t, l.path+key, "is for an axis that carries the camera", fmt.Sprintf("role = %q, or leave it out", slideRole))
			}
		}
	}
}

// role reads what an axis does, or tells it from its name and its move; "" where
// what the shot says is wrong.
func (l *sceneReader) role(m AxisMove, r RawRole) string {
	rotary := m.CheckKind(true) == nil
	if !r.Role.Set {
		role, why := l.likely(m, rotary)
		l.Default(l.path+"role", role, why)
		return role
	}
	role, ok := l.Choice(r.Role, l.path+"role", roles()...)
	l.mark("role", r.Role)
	linear := role == slideRole || role == focusRole
	if ok && role != noRole && linear == rotary {
		l.Wrong(r.Role, l.path+"role", "does not suit an axis in "+map[bool]string{true: "degrees", false: "mm"}[rotary], "")
		return ""
	}
	return role
}

func (l *sceneReader) likely(m AxisMove, rotary bool) (role, why string) {
	name, as := m.Name, ""
	if f, follows := m.Does.(move.Follower); follows {
		as = f.Part()
	}
	switch {
	case as == panRole || as == tiltRole || as == focusRole && !rotary:
		return as, "as its move says"
	case !rotary && name == focusRole:
		return focusRole, "as it is called"
	case !rotary:
		return slideRole, "it moves in mm, so it carries the camera"
	case name == panRole || name == tiltRole:
		return name, "as it is called"
	case name == focusRole:
		return noRole, "a focus ring in degrees does not say where it focuses"
	case l.scene.Stand.TableAxis != "":
		return noRole, "another axis turns the product"
	}
	return tableRole, "it turns, so the product stands on it"
}

// only sets the one axis that has a role.
func (l *sceneReader) only(to *string, m AxisMove, r RawRole) {
	if *to != "" {
		l.Wrong(r.Role, l.path+"role", "belongs to axis "+*to+" already", "give one of the two another")
		return
	}
	*to = m.Name
}

func (l *sceneReader) slide(name string, r RawRole) scene.Slide {
	s := scene.Slide{Axis: name, Rise: l.number(r.Rise, "rise", unit.Angle).Value}
	s.Heading = l.heading(r.Heading)
	if !r.MeasuredAt.Set {
		l.Default(l.path+"measured-at", "0 mm", "the scene was measured with it at 0")
	}
	s.Zero = l.number(r.MeasuredAt, "measured-at", unit.Length).Value
	return s
}

// heading reads a word or an angle.
func (l *sceneReader) heading(t source.Text) float64 {
	if !t.Set {
		l.Default(l.path+"heading", "push-in", "it is taken to lead to the product")
		return 0
	}
	if h, ok := headings[t.Text]; ok {
		return h
	}
	if _, err := unit.Parse(t.Text); err != nil {
		l.Wrong(t, l.path+"heading", "must be one of "+strings.Join(headingWords(), ", ")+", or an angle", `such as "30 deg"`)
		return 0
	}
	return l.number(t, "heading", unit.Angle).Value
}
