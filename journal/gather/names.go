package gather

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"

	"pleopod/journal"
	"pleopod/journal/water"
)

// role is what a column holds: a reading's name, a class of a count, or one of these.
type role string

// The roles beside readings and classes.
const (
	roleNone   role = ""
	roleDate   role = "date" // with or without a time of the day
	roleTime   role = "time" // a time of the day alone
	roleTank   role = "tank"
	roleCount  role = "count"
	roleMethod role = "method"
	roleNote   role = "note"
)

// headings is what keepers, loggers and spreadsheets call their columns, folded: lower case, no accents, no marks.
var headings = map[role][]string{
	roleDate: {"date", "datetime", "date time", "date and time", "timestamp", "time stamp", "day", "datum",
		"datum uhrzeit", "datum zeit", "zeitstempel", "tag", "messzeit",
		"jour", "date heure", "horodatage", "fecha", "fecha hora", "fecha y hora", "data", "data ora", "data e ora", "data hora", "giorno", "dia", "tijdstip", "datum tijd",
		"dato", "pvm", "paivamaara", "data godzina", "datum cas", "日期", "日付"},
	roleTime: {"time", "time of day", "uhrzeit", "zeit", "heure", "hora", "ora", "tijd", "tid", "klokke",
		"klockslag", "aika", "godzina", "czas", "cas", "时间", "時間", "時刻"},
	role(journal.Temperature): {"temperature", "temp", "t", "water temperature", "water temp", "tank temp",
		"tank temperature", "temperatur", "wassertemperatur", "wassertemp",
		"temperature de l eau", "temperature eau", "temperatura", "temperatura del agua", "temperatura dell acqua", "temperatura da agua", "watertemperatuur", "temperatuur",
		"vattentemperatur", "vandtemperatur", "lampotila", "teplota", "温度", "水温", "avg temp", "mean temp", "average temperature", "mean temperature"},
	role(journal.PH): {"ph", "ph value", "ph wert", "valeur ph", "valor ph", "ph waarde"},
	role(journal.GH): {"gh", "general hardness", "total hardness", "hardness", "gesamtharte",
		"gesamthaerte", "durete totale", "durete", "dureza total", "dureza general", "dureza", "durezza totale", "durezza", "dgh", "totale hardheid"},
	role(journal.KH): {"kh", "carbonate hardness", "alkalinity", "karbonatharte", "karbonathaerte",
		"durete carbonatee", "dureza de carbonatos", "durezza carbonatica", "carbonaathardheid", "alcalinite", "alcalinidad", "dkh"},
	role(journal.TDS): {"tds", "total dissolved solids", "dissolved solids"},
	role(journal.Conductivity): {"conductivity", "ec", "leitfahigkeit", "leitwert", "leitfaehigkeit",
		"conductivite", "conductividad", "conducibilita", "geleidbaarheid", "condutividade", "konduktivitet"},
	role(journal.Ammonia): {"ammonia", "ammonium", "nh3", "nh4", "nh3 nh4", "nh4 nh3", "ammoniak",
		"ammoniaque", "amoniaco", "amonio", "ammoniaca", "amonia", "tan"},
	role(journal.Nitrite): {"nitrite", "no2", "nitrit", "nitrites", "nitritos", "nitriti", "nitriet", "nitrito"},
	role(journal.Nitrate): {"nitrate", "no3", "nitrat", "nitrates", "nitratos", "nitrati", "nitraat", "nitrato"},
	role(journal.Copper):  {"copper", "cu", "kupfer", "cuivre", "cobre", "rame", "koper"},
	role(journal.Oxygen): {"oxygen", "o2", "dissolved oxygen", "sauerstoff", "oxygene", "oxigeno",
		"ossigeno", "zuurstof", "oxigenio"},
	roleTank: {"tank", "aquarium", "becken", "bac", "cuve", "acuario", "pecera", "acquario",
		"vasca", "bak", "aquario", "akvarium", "tank id"},
	"females":   {"females", "female", "weibchen", "femelles", "hembras", "femmine", "vrouwtjes", "femeas", "honor"},
	"males":     {"males", "male", "mannchen", "maennchen", "machos", "maschi", "mannetjes", "hannar"},
	"juveniles": {"juveniles", "juvenile", "young", "shrimplets", "babies", "jungtiere", "juvenils", "juveniles jeunes", "jeunes", "crias", "juveniles crias", "giovani", "jongen", "filhotes", "yngel"},
	"unsexed":   {"unsexed", "unknown sex", "adults", "unbestimmt", "erwachsene", "adultes", "adultos", "adulti", "volwassenen"},
	roleCount: {"count", "total", "shrimp", "number", "counted", "total shrimp", "anzahl",
		"gesamt", "nombre", "numero", "totale", "aantal", "antal", "bestand", "total count", "garnelen", "crevettes", "gambas", "garnalen"},
	roleMethod: {"method", "methode", "metodo"},
	roleNote: {"note", "notes", "comment", "comments", "remark", "remarks", "notiz",
		"notizen", "bemerkung", "bemerkungen", "kommentar", "remarque", "remarques", "nota", "notas", "comentario", "opmerking", "opmerkingen", "anmerkung"},
}

// notIons is columns whose number counts the nitrogen of an ion, or the oxygen as a share: another quantity.
var notIons = regexp.MustCompile(`^(no2|no3|nitrite|nitrate|nitrit|nitrat) ?(n|nitrogen)$`)

// mark is whatever is neither a letter nor a digit.
var mark = regexp.MustCompile(`[^\pL\pN]+`)

// accent is what decomposing a letter splits off.
var accent = regexp.MustCompile(`\pM`)

// fold writes a heading without what people write in different ways.
func fold(text string) string {
	text = strings.NewReplacer("ß", "ss", "ø", "o", "Ø", "o", "₂", "2", "₃", "3", "₄", "4").Replace(text)
	text = accent.ReplaceAllString(norm.NFKD.String(text), "")
	return strings.TrimSpace(mark.ReplaceAllString(strings.ToLower(text), " "))
}

// heading is what the name of a column says.
type heading struct {
	written string
	role    role
	unit    string // as the program writes it, or ""
	basis   journal.Basis
	why     string // why the column cannot be used, or ""
}

// groups is the parts of a heading in parentheses or brackets.
var groups = regexp.MustCompile(`[(\[{]([^)\]}]*)[)\]}]`)

// longestName is the most bytes of the name of a column; what is longer is no name.
const longestName = 200

// understand reads the name of a column.
func understand(written string) heading {
	h := heading{written: written}
	if len(written) > longestName {
		return h
	}
	plain := groups.ReplaceAllString(written, " ")
	var units []string
	for _, m := range groups.FindAllStringSubmatch(written, -1) {
		units = append(units, m[1])
	}
	if before, after, found := strings.Cut(plain, ","); found { // "Temp, °C"
		plain = before
		units = append(units, after)
	}
	h.role = roleOf(fold(plain))
	if h.role == roleNone {
		h.role, units = withUnitBehind(plain, units)
	}
	if m := notIons.FindStringSubmatch(fold(plain)); m != nil {
		h.role = roleOf(m[1])
		h.why = fmt.Sprintf("it counts nitrogen, and the journal takes the whole ion: nitrate is %.2f times, nitrite %.2f times the nitrogen",
			water.NitratePerNitrogen, water.NitritePerNitrogen)
		return h
	}
	for _, unit := range units {
		h.readUnit(unit)
	}
	if h.role == role(journal.Ammonia) {
		h.basis = basisOf(fold(plain))
	}
	return h
}

// withUnitBehind reads "Temperatur in °C" and "NO3 mg/l": the last words are the unit.
func withUnitBehind(plain string, units []string) (role, []string) {
	words := strings.Fields(plain)
	for i := len(words) - 1; i > 0; i-- {
		behind := strings.Join(words[i:], " ")
		if found := roleOf(strings.TrimSuffix(fold(strings.Join(words[:i], " ")), " in")); found != roleNone {
			return found, append(units, strings.TrimPrefix(behind, "in "))
		}
	}
	return roleNone, units
}

// roleOf returns the role that a folded heading names.
func roleOf(folded string) role {
	for found, words := range headings {
		if slices.Contains(words, folded) {
			return found
		}
	}
	return roleNone
}

// unitShape is what looks like a unit, such as °fH or mmol/L.
var unitShape = regexp.MustCompile(`^(%|°? ?fH|°\S+|\pL{1,4}/\pL{1,3})$`)

// readUnit takes the unit of a column, or says why the column cannot be used.
func (h *heading) readUnit(written string) {
	word := readingWord(h.role)
	written = strings.TrimSpace(written)
	if word == nil || written == "" {
		return
	}
	units, _ := journal.Spellings(word.Quantity)
	for _, unit := range units {
		for _, spelled := range append([]string{unit.Symbol}, unit.Also...) {
			if strings.EqualFold(strings.ReplaceAll(spelled, " ", ""), strings.ReplaceAll(written, " ", "")) {
				h.unit = unit.Symbol
				return
			}
		}
	}
	if unitShape.MatchString(written) {
		h.why = "its unit " + written + " is not one of the journal's"
	}
}

// basisOf returns what a test of ammonia counts, where its heading says so.
func basisOf(folded string) journal.Basis {
	switch folded {
	case "nh3":
		return journal.BasisNH3
	case "nh4", "ammonium":
		return journal.BasisNH4
	case "tan":
		return journal.BasisN
	}
	return ""
}

// readingWord returns the word of a reading, or nil for another role.
func readingWord(r role) *journal.Word {
	words := journal.Words().Readings
	for i := range words {
		if words[i].Name == string(r) {
			return &words[i]
		}
	}
	return nil
}

// isClass reports whether a role is a class of a count.
func isClass(r role) bool {
	return slices.ContainsFunc(journal.Words().Classes, func(w journal.Word) bool { return w.Name == string(r) })
}

// isValue reports whether a column of the role holds something to gather.
func isValue(r role) bool { return readingWord(r) != nil || isClass(r) || r == roleCount }
