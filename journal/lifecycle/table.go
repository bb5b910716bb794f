package lifecycle

// The sources that more than one default rests on.
const (
	nur2013      = "Nur & Christianus 2013, Asian J. Anim. Vet. Adv. 8:108-115, doi 10.3923/ajava.2013.108.115"
	mahmoud2020  = "Mahmoud et al. 2020, Biodiversitas 21:2396-2402"
	hamano1992   = "Hamano & Hayashi 1992 (Caridina multidentata, 40 d at 20 °C), doi 10.18353/rcustacea.21.0_1"
	cao2020      = "Cao et al. 2020 (Caridina multidentata, about 25 d at 25.5 °C), doi 10.19663/j.issn2095-9869.20181019001"
	tropea2015   = "Tropea, Stumpf & López Greco 2015, PLoS ONE 10:e0119468, doi 10.1371/journal.pone.0119468"
	schoolmann18 = "Schoolmann & Arndt 2018, Limnologica, doi 10.1016/j.limno.2018.05.001"
	dudgeon1985  = "after Dudgeon 1985 (Caridina in Hong Kong), Hydrobiologia, doi 10.1007/BF00032135"
	onuki2021    = "spawns in a spring of 17-20 °C in winter: Onuki 2021, Crustacean Research 50:33-39, doi 10.18353/crustacea.50.0_33"
)

// Parameters lists every number of a profile in the order of the methods page, with the defaults of
// Neocaridina davidi. It is the only place that knows the names.
func Parameters() []Parameter {
	var all []Parameter
	for _, group := range [][]Parameter{eggs(), maturing(), growing(), breeding(), living(), tank()} {
		all = append(all, group...)
	}
	return all
}

func eggs() []Parameter {
	return []Parameter{
		{"incubation.base", "temperature at and below which eggs do not develop", "C", 11, 0, 15.5, Published, hamano1992 + "; " + cao2020, func(p *Profile) *float64 { return &p.Incubation.Base }},
		{"incubation.degree-days", "sum of degrees above the base until eggs hatch", "C·d", 239, 100, 600, Published, "15 d at 27 °C: " + nur2013 + "; 15 d at 25-28 °C: " + mahmoud2020, func(p *Profile) *float64 { return &p.Incubation.DegreeDays }},
		{"incubation.break", "temperature above which development gains less from warmth", "C", 28, 24, 34, Assumption, "development flattens near the upper limit; eggs fail at 32 °C: " + tropea2015, func(p *Profile) *float64 { return &p.Incubation.Break }},
		{"incubation.slope-above", "share of the gain per degree that is left above the break", "", 0.5, 0, 1, Assumption, "half, between no flattening and full flattening", func(p *Profile) *float64 { return &p.Incubation.SlopeAbove }},
		{"incubation.prior-sd", "how much incubation differs between journals (sd of ln multiplier)", "", 0.15, 0.01, 0.5, Assumption, "keepers report 15 to 35 days over the temperatures they use", func(p *Profile) *float64 { return &p.Incubation.PriorSD }},
		{"incubation.brood-cv", "spread of the incubation from brood to brood", "", 0.10, 0.005, 0.5, Assumption, "single broods at one temperature scatter by a day or two", func(p *Profile) *float64 { return &p.Incubation.BroodCV }},
		{"incubation.dating-days", "days before she was seen berried on which she may have become so, when last-clear is not known", "d", 2, 0, 14, Assumption, "a tank is looked at every day or two", func(p *Profile) *float64 { return &p.Incubation.DatingDays }},
		{"incubation.notice-days", "days a hatch may go unnoticed", "d", 2, 0, 10, Practice, "the young hide for their first three or four days", func(p *Profile) *float64 { return &p.Incubation.NoticeDays }},
		{"incubation.eyed-at", "share of development done when eyes show", "", 0.58, 0.2, 0.95, Assumption, "eyes show a little after half-way", func(p *Profile) *float64 { return &p.Incubation.EyedAt }},
		{"incubation.eyed-sd", "spread of that share", "", 0.08, 0.01, 0.3, Assumption, "about a day and a half at 24 °C", func(p *Profile) *float64 { return &p.Incubation.EyedSD }},
		{"incubation.alt-scale", "alternative law: days at one degree above its zero", "", 14240, 1, 1e9, Assumption, "from the anchor 15 d at 27 °C: " + nur2013, func(p *Profile) *float64 { return &p.Incubation.AltScale }},
		{"incubation.alt-zero", "alternative law: biological zero of the curve, not a limit of survival", "C", -1.34, -20, 15.5, Assumption, "from the ratio of 40 d at 20 °C to 25 d at 25.5 °C: " + hamano1992 + "; " + cao2020, func(p *Profile) *float64 { return &p.Incubation.AltZero }},
		{"incubation.alt-power", "alternative law: power of the curve", "", 2.05, 0.5, 6, Memory, "Corkett, McLaren & Sevigny 1986 (copepod eggs)", func(p *Profile) *float64 { return &p.Incubation.AltPower }},
		{"incubation.valid-low", "lower end of the temperatures where the law is trusted", "C", 20, 5, 27, Assumption, "coldest anchor: " + hamano1992, func(p *Profile) *float64 { return &p.Incubation.ValidLow }},
		{"incubation.valid-high", "upper end of the temperatures where the law is trusted", "C", 30, 22, 36, Assumption, "above the warmest anchor of 28 °C, below the loss of all eggs at 32 °C: " + tropea2015, func(p *Profile) *float64 { return &p.Incubation.ValidHigh }},
		{"incubation.limit-low", "temperature below which no date is given", "C", 16, 1, 25, Assumption, "far below every anchor", func(p *Profile) *float64 { return &p.Incubation.LimitLow }},
		{"incubation.limit-high", "temperature above which no date is given", "C", 32, 26, 40, Published, "all females that matured at 32 °C lost their eggs: " + tropea2015, func(p *Profile) *float64 { return &p.Incubation.LimitHigh }},
	}
}

func maturing() []Parameter {
	return []Parameter{
		{"maturity.base", "temperature at and below which the young do not grow", "C", 13, 0, 18, Assumption, "joins 75 d at 27 °C to four to six months near 21 °C", func(p *Profile) *float64 { return &p.Maturity.Base }},
		{"maturity.degree-days", "sum of degrees above the base from hatching to maturity", "C·d", 1030, 300, 3000, Published, "75 d at 27 °C: " + nur2013 + "; " + mahmoud2020 + "; within 90 d at 24 °C: " + tropea2015, func(p *Profile) *float64 { return &p.Maturity.DegreeDays }},
		{"maturity.cv", "spread of the age at maturity from cohort to cohort and animal to animal", "", 0.20, 0.01, 0.6, Assumption, "keepers report two to six months; first eggs after about seven in a warm stream: " + schoolmann18, func(p *Profile) *float64 { return &p.Maturity.CV }},
		{"maturity.prior-sd", "how much the age at maturity differs between journals (sd of ln multiplier)", "", 0.20, 0.01, 0.6, Assumption, "food and crowding differ more between keepers than eggs do", func(p *Profile) *float64 { return &p.Maturity.PriorSD }},
		{"maturity.sexable-at", "share of the way to maturity at which sexes can be told by eye", "", 0.85, 0.3, 1, Practice, "the female's belly and saddle show shortly before the first eggs", func(p *Profile) *float64 { return &p.Maturity.SexableAt }},
		{"maturity.first-eggs", "days from maturity to the first eggs, when she moults at once", "d", 2, 0, 30, Published, "1-3 d: " + nur2013, func(p *Profile) *float64 { return &p.Maturity.FirstEggs }},
		{"maturity.moult-days", "days between two moults of a just-grown female; first eggs may wait up to one such interval", "d", 14, 0, 60, Assumption, "between 22 d at 15 °C and 10 d at 30 °C in juvenile Macrobrachium borellii (published)", func(p *Profile) *float64 { return &p.Maturity.MoultDays }},
	}
}

func growing() []Parameter {
	return []Parameter{
		{"growth.female-hatch", "length of a female at hatching", "mm", 2.3, 1, 6, Published, nur2013, func(p *Profile) *float64 { return &p.Growth.Female.Hatch }},
		{"growth.female-mature", "length of a female at maturity", "mm", 23, 8, 40, Published, "23-30 mm mature animals: " + mahmoud2020 + "; common practice", func(p *Profile) *float64 { return &p.Growth.Female.Mature }},
		{"growth.female-max", "mean length that females approach", "mm", 26.5, 10, 60, Assumption, "adult females are about 25 mm", func(p *Profile) *float64 { return &p.Growth.Female.Max }},
		{"growth.male-hatch", "length of a male at hatching", "mm", 2.3, 1, 6, Published, nur2013, func(p *Profile) *float64 { return &p.Growth.Male.Hatch }},
		{"growth.male-mature", "length of a male at maturity", "mm", 19.5, 8, 40, Practice, "a little under 20 mm", func(p *Profile) *float64 { return &p.Growth.Male.Mature }},
		{"growth.male-max", "mean length that males approach", "mm", 21.2, 10, 60, Assumption, "adult males are about 20 mm", func(p *Profile) *float64 { return &p.Growth.Male.Max }},
		{"growth.cv", "spread of single animals around the mean curve", "", 0.08, 0.01, 0.4, Assumption, "puts females of 27 to 30 mm among the largest few", func(p *Profile) *float64 { return &p.Growth.CV }},
		{"growth.max-prior-sd", "how much the greatest length differs between journals (sd of ln)", "", 0.08, 0.01, 0.5, Assumption, "as between single animals", func(p *Profile) *float64 { return &p.Growth.MaxPriorSD }},
		{"growth.kappa-prior-sd", "how much the speed of growth differs between journals (sd of ln)", "", 0.25, 0.01, 1, Assumption, "a little more than the age at maturity", func(p *Profile) *float64 { return &p.Growth.KappaPriorSD }},
		{"growth.measure-sd", "error of one measured length", "mm", 1, 0.05, 5, Practice, "a live shrimp against a ruler", func(p *Profile) *float64 { return &p.Growth.MeasureSD }},
	}
}

func breeding() []Parameter {
	return []Parameter{
		{"fecundity.reference", "hatchlings per brood of a female of the reference length", "", 36, 1, 200, Published, "21-51 young per brood: " + nur2013, func(p *Profile) *float64 { return &p.Fecundity.Reference }},
		{"fecundity.length", "the reference length", "mm", 23, 8, 40, Published, "mature females: " + mahmoud2020, func(p *Profile) *float64 { return &p.Fecundity.Length }},
		{"fecundity.exponent", "power with which hatchlings rise with length", "", 2.8, 0, 5, Published, "2.86 in Exopalaemon modestus: Chen et al. 2015, doi 10.7541/2015.129", func(p *Profile) *float64 { return &p.Fecundity.Exponent }},
		{"fecundity.min", "fewest hatchlings that the mean may fall to", "", 10, 0, 100, Assumption, "first broods of small females are about ten", func(p *Profile) *float64 { return &p.Fecundity.Min }},
		{"fecundity.max", "most hatchlings that the mean may rise to", "", 60, 5, 300, Assumption, "a little above the largest published brood", func(p *Profile) *float64 { return &p.Fecundity.Max }},
		{"fecundity.cv", "spread from brood to brood at one length", "", 0.35, 0.01, 1, Assumption, "the published 21-51 as about plus and minus 1.2 sd", func(p *Profile) *float64 { return &p.Fecundity.CV }},
		{"fecundity.egg-loss", "share of eggs lost before hatching at ordinary temperatures", "", 0.20, 0, 0.95, Assumption, "eggs drop off during carrying in all carid shrimp", func(p *Profile) *float64 { return &p.Fecundity.EggLoss }},
		{"fecundity.heat-from", "temperature above which more eggs are lost", "C", 28, 20, 36, Published, "no loss of all eggs at 28 °C: " + tropea2015, func(p *Profile) *float64 { return &p.Fecundity.HeatFrom }},
		{"fecundity.heat-all", "temperature from which all eggs are lost", "C", 32, 24, 40, Published, tropea2015, func(p *Profile) *float64 { return &p.Fecundity.HeatAll }},
		{"breeding.interval", "days between two broods of a female, as a multiple of the incubation", "", 1.5, 1, 6, Assumption, "from 50-80 % ovigerous females in Caridina sakishimensis: Soomro et al. 2011, doi 10.1651/10-3329.1", func(p *Profile) *float64 { return &p.Breeding.Interval }},
		{"breeding.settling", "days that a newly stocked grown female waits longer than others for her next eggs, on average", "d", 14, 0, 120, Practice, "first eggs come two to six weeks after a move", func(p *Profile) *float64 { return &p.Breeding.Settling }},
		{"breeding.stop-below", "temperature below which no new clutch begins", "C", 17, 5, 26, Published, onuki2021, func(p *Profile) *float64 { return &p.Breeding.StopBelow }},
		{"breeding.full-from", "temperature from which clutches follow at the full rate", "C", 21, 10, 28, Assumption, dudgeon1985 + "; " + onuki2021, func(p *Profile) *float64 { return &p.Breeding.FullFrom }},
		{"breeding.decline-from", "age from which females carry less often", "d", 365, 90, 1500, Practice, "females carry less often past a year", func(p *Profile) *float64 { return &p.Breeding.DeclineFrom }},
		{"breeding.decline-to", "age at which the decline is complete", "d", 548, 120, 2000, Assumption, "18 months", func(p *Profile) *float64 { return &p.Breeding.DeclineTo }},
		{"breeding.decline-factor", "share of clutches that is left then", "", 0.3, 0, 1, Assumption, "old females carry now and then", func(p *Profile) *float64 { return &p.Breeding.DeclineFactor }},
		{"breeding.female-share", "share of females at hatching", "", 0.5, 0.05, 0.95, Published, "45-59 %, mean 50.5 %, in a warm stream: " + schoolmann18 + "; against it stand 80 % at 20 °C, 50 % at 23 °C and 18 % at 26 °C of Serezli et al. 2017, Fresenius Environ. Bull. 26:7575-7579", func(p *Profile) *float64 { return &p.Breeding.FemaleShare }},
	}
}

func living() []Parameter {
	return []Parameter{
		{"survival.adult", "daily survival past the first weeks, without predators and old age", "/d", 0.9985, 0.95, 1, Assumption, "87 % in 90 d, where Tomas et al. 2020, doi 10.1111/anu.13076, kept over 80 %; with 0.9976 fewer than half would reach the median life", func(p *Profile) *float64 { return &p.Survival.Adult }},
		{"survival.young", "daily survival of the young, without predators", "/d", 0.995, 0.85, 1, Assumption, "three of four reach two months", func(p *Profile) *float64 { return &p.Survival.Young }},
		{"survival.young-days", "age up to which that holds", "d", 60, 0, 200, Assumption, "two months", func(p *Profile) *float64 { return &p.Survival.YoungDays }},
		{"survival.young-fish", "daily survival up to maturity where fish eat the young", "/d", 0.964, 0.7, 1, Published, "2-3 % of eggs reach adult: " + schoolmann18, func(p *Profile) *float64 { return &p.Survival.YoungFish }},
		{"survival.grown-days", "age from which death of old age is reckoned", "d", 122, 30, 400, Assumption, "four months", func(p *Profile) *float64 { return &p.Survival.GrownDays }},
		{"survival.median-life", "age at which half of the grown animals have died", "d", 457, 120, 2000, Assumption, "15 months, between 12 in the field and up to 21 in the laboratory: " + schoolmann18, func(p *Profile) *float64 { return &p.Survival.MedianLife }},
		{"survival.long-life", "age that few animals pass", "d", 639, 180, 3000, Published, "up to 21 months in the laboratory: " + schoolmann18, func(p *Profile) *float64 { return &p.Survival.LongLife }},
		{"survival.failed-moult", "probability that a failed moult kills", "", 0.8, 0, 1, Practice, "most shrimp stuck in their shell die within a day", func(p *Profile) *float64 { return &p.Survival.FailedMoult }},
	}
}

func tank() []Parameter {
	return []Parameter{
		{"density.free", "adults per litre up to which crowding has no effect", "1/L", 2.5, 0, 20, Published, "lowest of the densities tested, 2.5, 5 and 10 per litre: Vazquez et al. 2017, doi 10.1093/jcbiol/rux051", func(p *Profile) *float64 { return &p.Density.Free }},
		{"density.capacity", "adults per litre that a tank can carry, when the keeper names no capacity", "1/L", 5, 0.1, 50, Assumption, "twice the density without effect", func(p *Profile) *float64 { return &p.Density.AdultsPerLitre }},
		{"detection.glance", "share of the shrimp that a glance counts", "", 0.4, 0.02, 0.98, Assumption, "well under half sit in the open", func(p *Profile) *float64 { return &p.Detection.Glance }},
		{"detection.careful", "share that a careful count finds", "", 0.7, 0.04, 0.99, Assumption, "plants and filters hide some", func(p *Profile) *float64 { return &p.Detection.Careful }},
		{"detection.first-berried", "share of the broods that are noted in a small tank in which none was ever noted", "", 0.5, 0.01, 0.95, Assumption, "the first eggs of a tank are looked for, and written down", func(p *Profile) *float64 { return &p.Detection.FirstBerried }},
		{"detection.berried", "the same later on", "", 0.35, 0.01, 0.95, Assumption, "less is written the more there is to see", func(p *Profile) *float64 { return &p.Detection.Berried }},
		{"detection.first-young", "share of the young past their first week that are noted while none of the tank was ever noted", "", 0.05, 0.001, 0.9, Assumption, "the first young are looked for too, but they are small", func(p *Profile) *float64 { return &p.Detection.FirstYoung }},
		{"detection.concentration", "how alike counts of one tank are (concentration of a Beta distribution)", "", 12, 2, 500, Assumption, "a glance sees 25 to 55 % two times in three", func(p *Profile) *float64 { return &p.Detection.Concentration }},
		{"temperature.correlation-days", "days over which a departure from the baseline fades", "d", 7, 0.5, 60, Assumption, "about a week of weather", func(p *Profile) *float64 { return &p.Temperature.CorrelationDays }},
		{"temperature.heated-sd", "spread of the daily mean around the heater's set-point", "C", 1, 0.05, 5, Assumption, "set-points and rooms vary", func(p *Profile) *float64 { return &p.Temperature.HeatedSD }},
		{"temperature.unheated-sd", "spread of the daily mean around the baseline of an unheated tank", "C", 2, 0.05, 8, Assumption, "rooms follow the weather", func(p *Profile) *float64 { return &p.Temperature.UnheatedSD }},
		{"temperature.reading-sd", "error of one reading as a mean of its day", "C", 0.3, 0.01, 3, Assumption, "thermometer and hour of the day", func(p *Profile) *float64 { return &p.Temperature.ReadingSD }},
		{"temperature.fallback", "baseline when the journal says nothing", "C", 22, 10, 32, Practice, "an ordinary living room tank", func(p *Profile) *float64 { return &p.Temperature.Fallback }},
		{"temperature.fallback-sd", "how uncertain that baseline is", "C", 2.5, 0.1, 8, Assumption, "holds 18 to 26 °C nine times in ten", func(p *Profile) *float64 { return &p.Temperature.FallbackSD }},
		{"stocking.youngest", "least age of shrimp stocked without an age", "d", 91, 0, 1000, Assumption, "three months: grown", func(p *Profile) *float64 { return &p.Stocking.YoungestDays }},
		{"stocking.oldest", "greatest age of shrimp stocked without an age", "d", 213, 1, 1500, Assumption, "seven months: sold in their first year", func(p *Profile) *float64 { return &p.Stocking.OldestDays }},
	}
}
