package part

import (
	"fmt"
	"math"
	"slices"
)

func (d *Definition) validBodies() error {
	if len(d.Bodies) > 16 {
		return Fault{"/bodies", "holds more than 16 bodies"}
	}
	for i, b := range d.Bodies {
		at := fmt.Sprintf("/bodies/%d", i)
		if !finite(b.Rect[:]...) || b.Rect[0] >= b.Rect[2] || b.Rect[1] >= b.Rect[3] ||
			max(-b.Rect[0], -b.Rect[1], b.Rect[2], b.Rect[3]) > maxReach*2.54 {
			return Fault{at + "/rect", "must be left, top, right, bottom in millimetres near the part"}
		}
		if !finite(b.Height, b.StandOff) || b.Height < 0 || b.StandOff < 0 || b.Height > 200 || b.StandOff > 200 {
			return Fault{at + "/height", "must be between 0 and 200 mm, and so the stand-off"}
		}
		if len(b.Window) != 0 && !isWindow(b.Window) {
			return Fault{at + "/window", "must be left, top, right, bottom in millimetres near the part"}
		}
		if b.Shape != "" && b.Shape != "round" {
			return Fault{at + "/shape", "must be round or left out"}
		}
		if !slices.Contains([]string{"", "left", "top", "right", "bottom"}, b.Overhang) {
			return Fault{at + "/overhang", "must be left, top, right or bottom"}
		}
		if bad := CleanText(b.Label, 40); bad != "" {
			return Fault{at + "/label", bad}
		}
	}
	if len(d.Drills) > 16 {
		return Fault{"/drills", "holds more than 16 holes"}
	}
	for i, h := range d.Drills {
		at := fmt.Sprintf("/drills/%d", i)
		if !finite(h.MM[:]...) || !finite(h.Diameter) || h.Diameter <= 0 || h.Diameter > 20 ||
			math.Abs(h.MM[0]) > maxReach*2.54 || math.Abs(h.MM[1]) > maxReach*2.54 {
			return Fault{at, "must give a place and a diameter up to 20 mm"}
		}
		if bad := CleanText(h.Why, MaxText); bad != "" {
			return Fault{at + "/why", bad}
		}
	}
	return nil
}

func isWindow(w []float64) bool {
	return len(w) == 4 && finite(w...) && w[0] < w[2] && w[1] < w[3] &&
		max(-w[0], -w[1], w[2], w[3]) <= maxReach*2.54
}
