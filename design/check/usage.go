package check

import (
	"fmt"
	"strconv"
	"strings"

	"fascia/design/finding"
)

const usageSource = "USB-IF, HID Usage Tables for USB"

var usageRules = []Rule{
	{Code: "usage-form", Severity: finding.Stop, Says: "A usage is written as page:id in hexadecimal.", Source: usageSource, look: usageForm},
	{Code: "usage-unknown", Severity: finding.Mind, Says: "A usage stands in the tables.", Source: usageSource, look: usageUnknown},
}

// parseUsage reads page:id, two hexadecimal digits and two to four.
func parseUsage(text string) (page, id uint64, ok bool) {
	p, i, found := strings.Cut(text, ":")
	if !found || len(p) != 2 || len(i) < 2 || len(i) > 4 {
		return 0, 0, false
	}
	page, errPage := strconv.ParseUint(p, 16, 16)
	id, errID := strconv.ParseUint(i, 16, 16)
	return page, id, errPage == nil && errID == nil
}

// canonicalUsage writes a usage so that equal ones are equal text; "" when it cannot be read.
func canonicalUsage(text string) string {
	page, id, ok := parseUsage(text)
	if !ok {
		return ""
	}
	return fmt.Sprintf("%02X:%02X", page, id)
}

// A usageRange is a run of assigned usages of a page.
type usageRange struct{ page, first, last uint64 }

// usageRanges lists the pages that a panel may use. 07 leaves out the status codes 00 to 03; its
// upper ranges, and those of 01 and 0C, are from memory of the tables.
var usageRanges = []usageRange{
	{0x07, 0x04, 0xA4}, {0x07, 0xB0, 0xDD}, {0x07, 0xE0, 0xE7},
	{0x01, 0x30, 0x3E}, {0x01, 0x81, 0x93},
	{0x09, 0x01, 0xFFFF},
	{0x0C, 0x01, 0x05}, {0x0C, 0x20, 0x22}, {0x0C, 0x30, 0x36}, {0x0C, 0x40, 0x48}, {0x0C, 0x60, 0xF5},
	{0x0C, 0x100, 0x10D}, {0x0C, 0x150, 0x155}, {0x0C, 0x160, 0x16A}, {0x0C, 0x170, 0x174}, {0x0C, 0x180, 0x1CB},
	{0x0C, 0x200, 0x29D},
}

func isAssigned(page, id uint64) bool {
	for _, r := range usageRanges {
		if page == r.page && id >= r.first && id <= r.last {
			return true
		}
	}
	return false
}

func usageForm(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		if _, _, ok := parseUsage(k.Usage); k.Usage != "" && !ok {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("The usage %q of %s cannot be read.", k.Usage, keyName(k)),
				Fix:  "Write page and id in hexadecimal, such as 07:04 for the letter a."})
		}
	}
	return found
}

func usageUnknown(v *view) []finding.Finding {
	var found []finding.Finding
	for _, k := range v.keys {
		if page, id, ok := parseUsage(k.Usage); ok && !isAssigned(page, id) {
			found = append(found, finding.Finding{Where: atKeys(k.ID),
				Text: fmt.Sprintf("The usage %s of %s stands for no key.", k.Usage, keyName(k)),
				Fix:  "Choose one of pages 01, 07, 09 or 0C of the USB usage tables."})
		}
	}
	return found
}
