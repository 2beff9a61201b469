package picturewords

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/camera/picture"
)

// Bound is what parts a good picture from a poor one, as JSON.
type Bound struct {
	Key    string  `json:"key"`
	Value  float64 `json:"value"`
	Unit   string  `json:"unit"`
	Source string  `json:"source"`
	Own    bool    `json:"own"` // it is not the usual one
}

// Bounds lists the bounds that a picture was looked at by.
func Bounds(r picture.Report) []Bound {
	usual := scene.DefaultBounds()
	var out []Bound
	for _, i := range scene.BoundList() {
		b := Bound{Key: i.Key, Value: rounded(*i.At(&r.Bounds), jsonDigits), Unit: i.Unit, Source: i.Source}
		if *i.At(&r.Bounds) != *i.At(&usual) {
			b.Source, b.Own = "the shot", true
		}
		out = append(out, b)
	}
	return out
}

// OwnBounds puts those that are not the usual ones in a line, "" for none.
func OwnBounds(r picture.Report) string {
	var out []string
	for _, b := range Bounds(r) {
		if b.Own {
			value := strconv.FormatFloat(b.Value, 'f', -1, 64)
			out = append(out, strings.TrimSpace(fmt.Sprintf("%s %s %s", b.Key, value, b.Unit)))
		}
	}
	return strings.Join(out, ", ")
}
