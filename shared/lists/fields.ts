/**
 * What the columns of a list can be: the words that head them, and what stands in them. A field belongs to a site, to a
 * hop, or to an end of a hop; a list that comes out and one that goes in are read by the same rows.
 */
import type { Field, FieldKey } from "./field.js";

const length = { dimension: "length", usual: "m" } as const;
/** Above the ground, or of a thing. */
const size = { ...length, positive: true } as const;
const decibels = { dimension: "ratio", usual: "dB" } as const;

export const FIELDS: readonly Field[] = [
  {
    key: "site",
    called: "site",
    of: ["site", "end"],
    spellings: words(
      "site sitename siteid sitecode sitenumber sitelabel station stationname stationid name id code node location locationname standort standortname estacion emplazamiento nom sitio wpt",
    ),
  },
  {
    key: "title",
    called: "title",
    of: ["site", "hop"],
    spellings: words(
      "title description longname fullname sitetitle place address label bezeichnung beschreibung descripcion desc",
    ),
  },
  {
    key: "latitude",
    called: "latitude",
    of: ["site", "end"],
    spellings: words(
      "latitude lat latdeg latdecimal latitud breite breitengrad geobreite geogrbreite geographischebreite ylat latdms latwgs84 latwgs",
    ),
  },
  {
    key: "longitude",
    called: "longitude",
    of: ["site", "end"],
    spellings: words(
      "longitude lon long lng londeg longdeg londecimal longitud laenge lange laengengrad langengrad geolaenge geolange geogrlange geographischelange xlon longdms londms lonwgs84 longwgs84 lonwgs",
    ),
  },
  {
    key: "state",
    called: "state",
    of: ["site", "hop"],
    spellings: words("state status lifecycle buildstate zustand estado etat"),
  },
  {
    key: "position",
    called: "position",
    of: ["site", "end"],
    spellings: words(
      "position coordinates coordinate coords coord latlon latlong latlng gps gpscoordinates koordinaten coordenadas coordonnees at latitudelongitude",
    ),
  },
  {
    key: "easting",
    called: "easting",
    of: ["site", "end"],
    spellings: words(
      "easting east e x utme utmx xcoord xcoordinate rechtswert ostwert rw utmeast utmeasting",
    ),
  },
  {
    key: "northing",
    called: "northing",
    of: ["site", "end"],
    spellings: words(
      "northing north n y utmn utmy ycoord ycoordinate hochwert nordwert hw utmnorth utmnorthing",
    ),
  },
  { key: "zone", called: "UTM zone", of: ["site", "end"], spellings: words("zone utmzone utm") },
  {
    key: "epsg",
    called: "EPSG code",
    of: ["site", "end"],
    spellings: words("epsg epsgcode crs srid coordinatesystem"),
  },
  { key: "datum", called: "datum", of: ["site", "end"], spellings: words("datum geodeticdatum") },
  {
    key: "ground",
    called: "ground level",
    of: ["site", "end"],
    figure: length,
    spellings: words(
      "ground groundlevel groundheight groundelevation elevation elev altitude alt asl amsl masl sitealtitude siteelevation heightasl gelande gelaendehoehe gelandehohe hoehenn hohenn hoheunn altitud cota terrainheight ele elevationasl elevationamsl altitudeasl altitudeamsl groundasl groundamsl heightamsl",
    ),
  },
  {
    key: "structure",
    called: "structure",
    of: ["site", "end"],
    spellings: words(
      "structure structuretype towertype masttype support supporttype structurekind trager bauwerk",
    ),
  },
  {
    key: "structureHeight",
    called: "structure height",
    of: ["site", "end"],
    figure: size,
    spellings: words(
      "structureheight towerheight mastheight tower mast poleheight buildingheight supportheight heightofstructure structurehgt towerhgt masthohe masthoehe turmhohe turmhoehe alturatorre alturadetorre hauteurpylone",
    ),
  },
  {
    key: "hop",
    called: "hop",
    of: ["hop"],
    spellings: words(
      "hop hopname hopid link linkname linkid linkcode path pathname pathid strecke streckenname richtfunkstrecke enlace liaison bond route",
    ),
  },
  {
    key: "farSite",
    called: "far site",
    of: ["hop"],
    spellings: words("farsite farend oppositesite remotesite"),
  },
  {
    key: "objective",
    called: "objective",
    of: ["hop"],
    spellings: words("objective target requirement linkclass serviceclass"),
  },
  {
    key: "plan",
    called: "channel plan",
    of: ["hop"],
    spellings: words("plan channelplan frequencyplan raster channelraster channelarrangement"),
  },
  {
    key: "channelWidth",
    called: "channel width",
    of: ["hop"],
    figure: { dimension: "frequency", usual: "MHz", positive: true },
    spellings: words(
      "channelwidth channelspacing channelbandwidth bandwidth bw width kanalbandbreite bandbreite kanalraster anchodebanda",
    ),
  },
  {
    key: "channel",
    called: "channel",
    of: ["hop"],
    spellings: words("channel channelnumber channelno ch kanal kanalnummer canal"),
  },
  {
    key: "polarization",
    called: "polarization",
    of: ["hop"],
    spellings: words("polarization polarisation pol hv polarizacion"),
  },
  {
    key: "arrangement",
    called: "arrangement",
    of: ["hop"],
    spellings: words(
      "arrangement configuration config protection redundancy protectionscheme konfiguration schutz",
    ),
  },
  {
    key: "radio",
    called: "radio",
    of: ["hop", "end"],
    spellings: words(
      "radio radiotype radiomodel radioname equipment equipmenttype odu odutype outdoorunit transceiver funkgerat funkgeraet gerat geraet geratetyp equipo",
    ),
  },
  {
    key: "modeWidth",
    called: "mode width",
    of: ["hop"],
    figure: { dimension: "frequency", usual: "MHz", positive: true },
    spellings: words("modewidth modebandwidth"),
  },
  {
    key: "lowestMode",
    called: "lowest modulation",
    of: ["hop"],
    spellings: words("lowestmode lowestmodulation minmodulation basemodulation referencemodulation minmod"),
  },
  {
    key: "highestMode",
    called: "modulation",
    of: ["hop"],
    spellings: words(
      "highestmode highestmodulation maxmodulation modulation mode modulationscheme maxmod modulacion modulationsart",
    ),
  },
  {
    key: "bitRate",
    called: "bit rate",
    of: ["hop"],
    figure: { dimension: "bit rate", usual: "Mbit/s", positive: true },
    spellings: words(
      "bitrate rate capacity throughput datarate linkcapacity kapazitat kapazitaet capacidad debit",
    ),
  },
  {
    key: "antenna",
    called: "antenna",
    of: ["end"],
    spellings: words(
      "antenna antennatype antennamodel antennaname dish aerial ant anttype antmodel antenne antennentyp antena dishtype",
    ),
  },
  {
    key: "antennaHeight",
    called: "antenna height",
    of: ["end"],
    figure: size,
    spellings: words(
      "antennaheight antheight height agl heightagl antennaagl centerline centreline antennacenterline antennacentreline antennahgt anthgt hgt ht h antennenhohe antennenhoehe antennahoehe hoehe hohe altura alturaantena hauteur hba antennacentre antennacenter dishheight rad antennaheightagl antheightagl heightaboveground",
    ),
  },
  {
    key: "antennaDiameter",
    called: "antenna diameter",
    of: ["end"],
    figure: size,
    spellings: words(
      "antennadiameter diameter antennasize dishsize size dia antennadia antdiameter antdia antsize durchmesser spiegel antennendurchmesser diametro dishdiameter dishdia",
    ),
  },
  {
    key: "antennaGain",
    called: "antenna gain",
    of: ["end"],
    figure: { dimension: "gain", usual: "dBi" },
    spellings: words("antennagain gain antgain antennengewinn gewinn ganancia"),
  },
  {
    key: "antennaBeamwidth",
    called: "antenna beamwidth",
    of: ["end"],
    figure: { dimension: "angle", usual: "deg" },
    spellings: words("beamwidth antennabeamwidth hpbw halbwertsbreite offnungswinkel"),
  },
  { key: "coupler", called: "coupler", of: ["end"], spellings: words("coupler hybrid combiner omt koppler") },
  {
    key: "mounting",
    called: "mounting",
    of: ["end"],
    spellings: words("mounting mount mounttype couplermounting"),
  },
  {
    key: "feeder",
    called: "feeder",
    of: ["end"],
    spellings: words("feeder feedertype waveguide waveguidetype hohlleiter feederline"),
  },
  {
    key: "feederLength",
    called: "feeder length",
    of: ["end"],
    figure: size,
    spellings: words("feederlength waveguidelength hohlleiterlange hohlleiterlaenge"),
  },
  {
    key: "transmits",
    called: "half of the band",
    of: ["end"],
    spellings: words("transmits half bandhalf highlow hilo lowhigh hl txhalf halfband oberunterband"),
  },
  {
    key: "frequency",
    called: "transmit frequency",
    of: ["end"],
    figure: { dimension: "frequency", usual: "MHz", positive: true },
    spellings: words(
      "frequency freq f transmitfrequency txfrequency txfreq centrefrequency centerfrequency frequenz sendefrequenz frecuencia frequence assignedfrequency",
    ),
  },
  {
    key: "power",
    called: "transmit power",
    of: ["end"],
    figure: { dimension: "power level", usual: "dBm" },
    spellings: words(
      "power txpower transmitpower outputpower sendeleistung leistung potencia puissance pout pwr txpwr",
    ),
  },
  {
    key: "extraLoss",
    called: "extra loss",
    of: ["end"],
    figure: decibels,
    spellings: words(
      "extraloss loss losses miscloss miscellaneousloss otherlosses zusatzdampfung otherloss feederloss",
    ),
  },
  {
    key: "diversityAntenna",
    called: "diversity antenna",
    of: ["end"],
    spellings: words("diversityantenna divantenna sdantenna diversitatsantenne diversityantennatype"),
  },
  {
    key: "diversityHeight",
    called: "height of the diversity antenna",
    of: ["end"],
    figure: size,
    spellings: words("diversityheight diversityantennaheight divheight sdheight diversity"),
  },
  {
    key: "diversityGain",
    called: "gain of the diversity antenna",
    of: ["end"],
    figure: { dimension: "gain", usual: "dBi" },
    spellings: words("diversitygain diversityantennagain divgain"),
  },
  {
    key: "azimuth",
    called: "azimuth",
    of: ["end"],
    figure: { dimension: "angle", usual: "deg" },
    checked: true,
    spellings: words("azimuth azimut az bearing azimuthtrue trueazimuth richtung azimuthdegrees"),
  },
  {
    key: "length",
    called: "length",
    of: ["hop"],
    figure: { dimension: "length", usual: "km" },
    checked: true,
    spellings: words(
      "length distance pathlength hoplength linklength dist entfernung lange laenge distancia longueur",
    ),
  },
];

function words(text: string): readonly string[] {
  return text.split(" ");
}

export const FIELD: ReadonlyMap<FieldKey, Field> = new Map(FIELDS.map((field) => [field.key, field]));
