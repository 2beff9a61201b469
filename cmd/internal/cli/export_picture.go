package cli

import (
	"errors"
	"io"
	"strings"

	"seamrail/export/looks"
)

// pictureExport is the name of the picture table.
const pictureExport = "picture"

// pictured is an error that says what is missing where the shot has no picture
// that could be told frame by frame.
func (j job) pictured() error {
	if j.picture == nil {
		return errors.New("the shot says nothing of camera and scene; [camera] and [scene] in its file would")
	}
	if len(j.picture.Rows) > 0 {
		return nil
	}
	v, _ := j.picture.Find("magnification")
	return errors.New("how large things come out is not known; [camera] in the shot needs " + strings.Join(v.Missing, ", and "))
}

func (j job) pictureTable(w io.Writer) error {
	return looks.Write(w, j.trajectory, j.told(), *j.picture)
}

// pictureParts are the files of the folder that a camera and a scene allow.
func (j job) pictureParts(set exportSettings) contents {
	if err := j.pictured(); err != nil {
		return without(err, "picture.csv")
	}
	return with(part{"picture.csv", "smear, focus and clearance at each captured frame", j.exporter(pictureExport, set)})
}
