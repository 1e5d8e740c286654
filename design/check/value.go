package check

import (
	"fmt"
	"math"

	"fascia/design/finding"
	"fascia/design/part"
)

var valueRules = []Rule{
	{Code: "value-missing", Severity: finding.Mind, Says: "Every resistor has a value.", Source: "common practice, no source", look: valueMissing},
	{Code: "value-unreadable", Severity: finding.Mind, Says: "Values are written as IEC 60062 writes them.", Source: "IEC 60062", look: valueUnreadable},
	{Code: "value-series", Severity: finding.Note, Says: "Resistors come in the values of the E24 series.", Source: "IEC 60063", look: valueSeries},
}

func valueMissing(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Resistor) {
		if it.value() == "" && it.def.Facts.Ohms == 0 {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("Resistor %s has no value.", it.Ref), Fix: "Write one, such as 220 or 4.7k."})
		}
	}
	return found
}

func valueUnreadable(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Resistor, part.Capacitor) {
		if it.value() == "" {
			continue
		}
		if _, err := part.ParseValue(it.value()); err != nil {
			found = append(found, finding.Finding{Where: atParts(it.Ref),
				Text: fmt.Sprintf("The value %q of %s is no number.", it.value(), it.name()), Fix: "Write it like 220, 4.7k, 4k7 or 100n."})
		}
	}
	return found
}

// e24 holds the preferred values of one decade. They are not all roundings of powers of ten, so
// they stand as a table: IEC 60063.
var e24 = [...]float64{1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1}

// nextE24 is the smallest value of the series that is at least ohms; 100 when ohms is not positive.
func nextE24(ohms float64) float64 {
	if !(ohms > 0) || math.IsInf(ohms, 0) {
		return 100
	}
	decade := math.Pow(10, math.Floor(math.Log10(ohms)))
	for _, step := range e24 {
		if step*decade >= ohms*(1-1e-9) {
			return rounded(step * decade)
		}
	}
	return rounded(10 * decade)
}

// rounded takes off what binary fractions leave behind.
func rounded(x float64) float64 { return math.Round(x*1e6) / 1e6 }

func valueSeries(v *view) []finding.Finding {
	var found []finding.Finding
	for _, it := range v.ofKind(part.Resistor) {
		ohms, ok := it.ohms()
		if !ok {
			continue
		}
		next := nextE24(ohms)
		if math.Abs(next-ohms) <= ohms*0.001 {
			continue
		}
		found = append(found, finding.Finding{Where: atParts(it.Ref),
			Text: fmt.Sprintf("Resistor %s is %s, which the E24 series does not have.", it.Ref, resistance(ohms)),
			Fix:  fmt.Sprintf("Take %s, the next higher one.", resistance(next))})
	}
	return found
}
