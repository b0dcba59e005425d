/** What a heading may speak of, before it is known which end of a wire is meant. */
export type HeadingTopic =
  | "component"
  | "connector"
  | "half"
  | "mate"
  | "pin"
  | "function"
  | "terminalSize"
  | "wire"
  | "type"
  | "splice"
  | "colour"
  | "tracer"
  | "crossSection"
  | "length"
  | "net"
  | "netKind"
  | "harness"
  | "group"
  | "option"
  | "note";

/**
 * Plain words of the trade by which tables head their columns, in small letters without accents: English, German, French, Spanish,
 * Italian, Dutch, Swedish. A line of words for each language, in that order. Common practice, no source.
 */
export const HEADING_WORDS: Readonly<Record<HeadingTopic, string>> = {
  component: `component, device, unit, module, part, equipment, consumer, ecu,
    bauteil, geraet, gerat, steuergerat, komponente, verbraucher,
    composant, appareil, organe, calculateur, equipement,
    componente, dispositivo, aparato, unidad, modulo,
    apparecchio, centralina, onderdeel, apparaat, toestel, komponent, apparat, enhet, styrenhet`,
  connector: `connector, plug, conn, connector id, plug id, housing, coupler,
    stecker, steckverbinder, steckverbindung, steckergehause, kupplung, steckernummer,
    connecteur, prise, fiche, boitier, conector, enchufe, ficha,
    connettore, spina, stekker, stekkerverbinding, kontaktdon, kontaktstycke, kontakthus, skarvdon`,
  half: `half, side, connector half, halfte, steckerhalfte, seite, moitie, cote, mitad, lado, meta, lato, helft, zijde, halva, sida`,
  mate: `mate, mates with, mating connector, mated to, counterpart, mating half, gegenstecker, gegenstuck,
    contrepartie, connecteur oppose, contraparte, conector opuesto, controparte, tegenstekker, contrastekker,
    motkontakt, motstycke`,
  pin: `pin, cavity, contact, terminal, position, pos, way, cav, pin id, chamber,
    kammer, kontakt, klemme, anschluss, steckplatz, pol, pinnummer, kammernummer,
    broche, voie, borne, alveole, via, cavidad, contacto, patilla, terminale, polo, contatto, morsetto, cavita,
    aansluiting, positie, pool, stift, pinne, stiftnummer`,
  function: `function, description, designation, pin function, funktion, bezeichnung, beschreibung,
    fonction, designation, funcion, descripcion, funzione, descrizione, functie, omschrijving, beskrivning, benamning`,
  terminalSize: `terminal size, contact size, terminal width, tab size, kontaktgrosse, anschlussgrosse, steckerbreite,
    taille de contact, largeur de contact, tamano de terminal, tamano de contacto,
    dimensione contatto, misura terminale, contactmaat, kontaktstorlek`,
  wire: `wire, wire no, wire id, cable, conductor, lead, core, wire name,
    leitung, ader, kabel, draht, leitungsnummer, adernummer, kabelnummer,
    fil, conducteur, numero de fil, hilo, conductor, alambre, numero de cable, filo, cavo, conduttore, numero filo,
    draad, draadnummer, leiding, ledning, ledare, trad, ledningsnummer, kabelnummer`,
  type: `type, kind, end type, point type, art, anschlussart, tipo, soort, typ, slag`,
  splice: `splice, splice id, joint, crimp joint, spleiss, spleissstelle, lotstelle, epissure, empalme,
    giunzione, giunto, las, lasverbinding, splitsing, skarv`,
  colour: `colour, color, wire colour, wire color, base colour, base color, col, colour code, color code, insulation colour,
    farbe, aderfarbe, leitungsfarbe, kabelfarbe, grundfarbe, farbcode, farbkennzeichnung,
    couleur, couleur du fil, couleur fil, color del cable, color cable, color de hilo,
    colore, colore filo, colore cavo, kleur, draadkleur, kleurcode, farg, ledningsfarg, kabelfarg, fargkod`,
  tracer: `tracer, stripe, second colour, second color, tracer colour, tracer color, stripe colour, stripe color, colour 2, color 2,
    kennfarbe, zweitfarbe, streifen, streifenfarbe, farbe 2, lisere, couleur secondaire, couleur 2, seconde couleur,
    trazador, raya, franja, segundo color, striscia, secondo colore, colore secondario, streep, tweede kleur,
    strimma, andra farg, kannfarg`,
  crossSection: `cross section, cross sectional area, size, gauge, wire size, wire gauge, csa, area, conductor size, section, awg, mm2,
    querschnitt, leitungsquerschnitt, aderquerschnitt, section du fil, calibre, seccion, seccion del cable,
    sezione, sezione filo, doorsnede, kabeldoorsnede, tvarsnitt, ledararea, tvarsnittsarea, kabelarea`,
  length: `length, wire length, len, lange, leitungslange, kabellange, longueur, longueur du fil, longitud, largo,
    lunghezza, lengte, draadlengte, langd, kabellangd`,
  net: `signal, circuit, net, signal name, circuit name, net name, circuit no, potential,
    signalname, potenzial, stromkreis, stromlauf, nom du signal, senal, circuito, nombre de senal,
    segnale, nome segnale, signaal, stroomkring, signaalnaam, krets, signalnamn, stromkrets`,
  netKind: `signal kind, net kind, signal type, circuit type, signal class, signalart, signaltyp, type de signal,
    tipo de senal, tipo di segnale, signaaltype, signaltyp, kretstyp`,
  harness: `harness, wiring harness, loom, kabelbaum, leitungssatz, leitungsstrang, faisceau, mazo, mazo de cables, arnes,
    cablaggio, kabelboom, kabelbundel, kablage, kabelharva, kabelstam`,
  group: `group, pair, twisted pair, twisted with, cable group, gruppe, paar, verdrillt mit, groupe, paire, torsade,
    grupo, par, trenzado, gruppo, coppia, groep, grupp`,
  option: `option, options, variant, variant code, option code, fitted with, variante, ausstattung, sonderausstattung, optionen,
    opcion, opciones, opzione, opzioni, allestimento, optie, opties, uitvoering, tillval`,
  note: `note, notes, remark, remarks, comment, comments, bemerkung, bemerkungen, hinweis, notiz, kommentar, anmerkung,
    remarque, remarques, commentaire, observations, nota, notas, observacion, observaciones, comentario,
    osservazioni, commento, opmerking, opmerkingen, notitie, anmarkning, notering`,
};

/** Words that say which end of a wire is meant, when they stand before or after another word, or alone. */
export const END_WORDS: Readonly<Record<"from" | "to", string>> = {
  from: `from, start, source, origin, end 1, side 1, end a, side a, von, quelle, anfang, beginn, depuis, de, origine, depart, source,
    desde, origen, da, partenza, van, bron, begin, fran, kalla, utgang`,
  to: `to, target, destination, dest, end 2, side 2, end b, side b, goes to, nach, ziel, ende, zu, vers, arrivee,
    hacia, hasta, destino, verso, destinazione, arrivo, naar, doel, eind, till, mal, slut`,
};
