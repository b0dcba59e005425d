/** A kind of line that no check is suggested on. */
export type GuardedKind = "airbag" | "high-voltage";

/** What a name gives away, and the part of it that does. */
interface GuardedName {
  readonly kind: GuardedKind;
  readonly word: string;
}

/**
 * Words of airbags, belt tensioners and everything else that a squib fires, and of the sensors and units of that system. They are written
 * as {@link plainWords} writes a name: small letters without accents, words apart. Long words are found inside others too, so that
 * compounds of German, Dutch and Swedish and endings of Polish and Czech are met; short ones must stand alone.
 *
 * Words of the trade in many languages, from memory; common practice, no source. They err on the side of guarding too much.
 */
const AIRBAG: readonly RegExp[] = [
  // The bag itself.
  /airbag|\bair bag|\ba bags?\b|\b(?:airb|abag|airbg|air bg|abg)\b|\bsrs\b|\bsir\b|\bsdm\b|aerbag|\bpab\b/u,
  /\bab (?:fa|bf|fs|bfs|stg|steuer\p{L}*|fahrer|beifahrer|ecu|squib|warn|lamp|modul\p{L}*)\b/u,
  /\b(?:curtain|knee|thorax|side|head|driver|drv|passenger|pass|pas|roof|window|front|wheel|seat|lap|center|centre|far ?side) bags?\b/u,
  /(?:window|thorax|curtain|knee|side|fahrer|lenkrad|kopf|knie|seiten|fenster|becken|head|sido|kno)bags?\b|\bbags? (?:squib|igniter|stage|stg|inflat)/u,
  /(?:coussins?|sacs?|rideaux?) gonflable|\b(?:bolsas?|cojin|cojines|cortinas?)(?: de)? aire\b|\b(?:bolsas?|almofadas?|cortinas?) (?:de ar\b|inflav|inflab)/u,
  /(?:cuscin[oi]|tendin[ae]|sacc[oh]i?) gonfiabil|krock(?:kudd|gardin|sens|giv|skydd)|kollisjonspute|kollisionspude|kollisjonsgardin|luchtzak|luchtkussen/u,
  /turvatyyny|legzsak|legfuggony|hava (?:yastig|perde)|perna de aer|airbag|podusz\p{L}* (?:pow|kier|pas|bocz|kolan|czol)|kurtyn\p{L}* (?:pow|bocz)/u,
  /подуш\p{L}* безоп|шторк\p{L}* безоп|э[ий]рб[еэ]г|аирб[еэ]г|αεροσακ|에어백|에어 백/u,
  /エアバッグ|エアバック|エアーバッグ|カーテンバッグ|e?abaggu|气囊|氣囊|气帘|氣簾|\bqi ?nang/u,
  // What else a squib fires.
  /squib|\bsqb\b|\bsqib\b|\bsqu\b|スクイブ|sukuibu|スクウィブ|스퀴브|пиропатрон/u,
  /p[iy]rote[ck]|pyro(?!met|lys|\p{L}* (?:gauge|temp|egt|thermo|prob|sens))|пиро(?:техн|замок|предохр)|ピロ|pirotech|烟火|火工/u,
  /pre ?tension(?:er|n?eur|or|ator|ador|ier)|pre ?tensor|\bpre?t(?:ens|nsr|ensr|nr|ensn?r?)\b|predpin|prednapin|esifeszito|ovfeszito|esikirist|turvavy\p{L}* (?:kirist|esi)|on ?gergi|emniyet kemer\p{L}* (?:ger|on)/u,
  /(?<!riemen|ketten|seil)straffer|gurt ?(?:vor)?straff|\bgurtstr|gurt ?spanner|belt ?estram|selestram|balte\p{L}*str|beltestram|gordel ?(?:voor|slot)?sp/u,
  /napinacz\p{L}* (?:pas(?:ow|a (?:bez|kier|pas|przed|tyl|le|pr)))|натяжител\p{L}* рем\p{L}* безоп|преднатяж|tendeur de ceinture|retracteur pyro|tensor(?:es)? (?:de|del) cintur|tensor do cinto/u,
  /cintur\p{L}* (?:pre)?tens|시트벨트 ?(?:프리)?텐|프리텐셔너|プリテンショナ|シートベルト ?テンショナ|puri ?tenshona|预紧|預緊|预张紧|\byu ?jin ?qi\b/u,
  /inflator(?! (?:comp|pump|tyre|tire))|inflador|gonfiatore|\binfl (?:drv|driver|pass|pas|stg|stage)\b|インフレ(?:ー)?タ|gas ?generator (?:fahrer|beifahrer|driver|pass|stage|stg|fs|bfs)|gasgen|generat(?:eur|ore|or) de gaz?\b|generatore di gas|气体发生器|氣體發生器/u,
  /zu?e?nd(?:pille|kapsel|satz)|zu?e?nder (?:u?e?berroll|fahrer|beifahrer|gurt|kopf|seite)|deton(?:ad|at)or|detonat(?:eur|ore)|\binici?ador (?:bolsa|pret|pirot)|\binitiator (?:driver|pass|stage)|igniter (?:driver|drv|pass|stage|stg|loop)|\bfiring (?:loop|line|circuit|path)|mise a feu/u,
  /\bdeploy(?:ment)?(?: \p{L}+)? (?:loop|squib|circuit|line|driver|pass\p{L}*|actuator|bag)|(?:loop|bonnet|hood|bar|bag) deploy/u,
  /(?:pop ?up|active|aktive|lift\p{L}*) (?:bonnet|hood|motorhaube)|(?:bonnet|hood) lift|motorhaubenaufsteller|capot actif/u,
  /roll ?(?:over )?bar (?:deploy|actuator|release|squib|pyro|ausl)|u?e?berrollbu?e?gel ?(?:ausl|zu?e?nd|aktor|magnet)|roll ?over (?:sens|detect)|u?e?berrollsens/u,
  /sicherheitsbatterieklemme|safety battery (?:terminal|clamp)|batterietrennung crash/u,
  // The system around it.
  /(?<!\b(?:head|load|cargo|cable|strap|tie down|container|wheelchair) )restraint|ru?e?ckhaltesystem|retenue (?:ocup|passag|gonfl)|occupant (?:class|detect|sens|prot)|\bsafing\b|\brcm\b/u,
  /\bcrash\b(?! (?:bar|bumper|guard|box|protect\p{L}* bar))|\bimpact\b(?! (?:wrench|drill|crush|mill|driver|hammer|bar|print|press))|collision (?:sens|sns|detect|signal|sig|out|module|unit|switch|input|line|loop)|crash(?:sens|sig)|aufprall/u,
  /(?:sens\p{L}*|capt\p{L}*|snimac\p{L}*|cidl\p{L}*|czujnik\p{L}*|датчик\p{L}*) (?:\p{L}{1,3} )?(?:choc|choque|urto|impact\p{L}*|colis\p{L}*|collis\p{L}*|narazu|zderzeni\p{L}*|uderzen\p{L}*|удара|столкн\p{L}*)/u,
  /narazov\p{L}* (?:sens|snim|cidl)|botssens|kollisjonssens|kollisionssens|tormays ?anturi|carp(?:ma|isma) (?:sens|alg)|utkozes\p{L}* (?:erz|szenz)|충돌 ?(?:센서|감지)|衝突センサ|碰撞/u,
];

/** A belt tensioner may be that of a seat belt, unless something says that it is a belt of the machine. */
const BELT_TENSIONER =
  /belt (?:pre ?)?tension(?:er|or)|tension(?:er|or) (?:seat )?belt|seat ?belt (?:pre ?)?tens|gurt ?tens|safety belt tens/u;
const MACHINE_BELT =
  /\b(?:timing|drive|conveyor|engine|fan|alternator|serpentine|accessory|aux\w*|poly|cam|ribbed|vee?|a c|compressor|pump|auger|header|track|elevator|feeder|baler|combine|transmission|generator)\b/u;
/** Said with an inflator: it fills tyres. */
const OF_TYRES = /\bty?i?res?\b|wheel|reifen|pneu|neumatic|dack|タイヤ|轮胎|band(?:en)?druk|boat|raft/u;

/** Words of high voltage, written like those above. From memory; common practice, no source. */
const HIGH_VOLTAGE: readonly RegExp[] = [
  /\bhv\b|\bhv(?:b|bat|batt|battery|dc|il|lo?oop|plus|minus|pos|neg|link|ptc|bus|jb|pdu|comp|heater|htr|inv|ess|net|kabel|cable|acc?u|main|positive|negative|power|contactor|relay|charger|isol|lock|ch|h)\b/u,
  /high ?volt|hi ?volt|(?:hazardous|dangerous|lethal) volt|gefa?e?hrliche spannung|\bhigh tension(?! (?:spring|belt|chain|bolt|er))|hoch ?volt|hoch ?spannung/u,
  /haute ?tens(?:ion)?\b|alt[ao] ?(?:tens(?:ion|ao|ione)?\b|volt(?:aje|aggio|agem)?\b)|(?:tension|tensione|tensao|voltaje) (?:peligros|pericol|perigos)/u,
  /hog ?(?:spanning|volt)|hoj ?(?:spaend|spand|volt)|hoy ?(?:spen|volt)|hoog ?(?:spanning|volt)|\bhsp\b/u,
  /wysoki\p{L}* nap|wysokonap|vysok\p{L}* nap|vysokonap|korkea ?jannit|suur ?jannit|nagy ?feszult|yuksek (?:gerilim|voltaj)|inalta tensiune/u,
  /высоковольт|высок\p{L}* напряж|υψηλη ταση|고전압|고압 ?(?:배터리|전선|케이블|회로)|高電圧|高電壓|高电压|kou? ?den ?atsu/u,
  // The sign for high that may mean pressure: not where a pump, oil or fuel follows.
  /高[压壓圧](?!泵|油|水|轨|軌|共轨|管|气|氣|清洗|洗|喷|燃|ポンプ|ガス|ホース|配管|力|侧压|传感|空)/u,
  /\bgao ?ya(?! ?(?:you|beng|guan|gui|shui|qi\b))/u,
  // Short forms that stand with a cable, a battery or a cylinder only.
  /^(?=.*\bht\b)(?!.*(?:cool|water|radiat|temp|therm|kuhl|kuehl|pump)).*\b(?:leads?|cables?|wires?|coils?|cyl|plug|spark|ignition|traction|batt|bus|dc|plus|minus|pos|neg|supply|faisceau|reseau|fil|bougie)/u,
  /\bwn (?:cyl\p{L}*|plus|minus|bat\p{L}*)|(?:przewod\p{L}*|kabel|cewk\p{L}*|wiazk\p{L}*) wn\b|\bvn (?:kabel|vodic|cyl\p{L}*|bat\p{L}*)|(?:kabel|vodic|svazek) vn\b|(?:cable|cavo|batteri?a|cablaggio|cabo) at\b/u,
  // The battery and the machines that it drives.
  /^(?!.*(?:control|kontroll|regul)).*(?:\b(?:tra[ck]t|trak|trac[ck]|trac\b|trazion)|тяг[оa]в)\p{L}*(?:(?:batt?|akku|accu|netz|motor|umricht|spann|invert)| .*(?:\bbat|\bacc?u|\bak[ku]|\bpack|\bmot|\binv|\bdc\b|\bbus|\bconv|\bsupply|\bvolt|\bphase|\bfas|\bfaz|\bhv|\bfuse|\bmain|\bcontactor|\bcable|\bplus|\bminus|\bpos\b|\bneg\b|\bpre ?charge|\bdisconnect|двигат|батар|аккум|инверт))/u,
  /(?:\bbat\p{L}*|\bacc?u\p{L}*|\bak[ku]\p{L}*|\bmot\p{L}*|\binv\p{L}*|\bsilnik\p{L}*|\bfalown\p{L}*|\bcable|\bcavo|\bonduleur) (?:\p{L}{1,3} )?(?:tra[ck]t|tracc|trazion|trac|trak)\p{L}*/u,
  /구동 ?(?:배터리|모터)|駆動用?(?:バッテリ|モータ|电池|電池)|动力(?:电池|线|電池)|動力電池|dong ?li ?dian ?chi|驱动电[机機]|电机控制器|直流母[线線]|[主预預]充/u,
  /\b(?:e|electric) ?(?:machine|maschine|machin|motor)\b.*\b(?:phase|fas)|\bphase\b.*\be ?machine|(?:inverter|umrichter|onduleur|inversor|omvormer|vaxelriktare) (?:\p{L}+ )?(?:phase|fas\p{L}*|dc|hv|u|v|w)\b|\bmg (?:phase|u|v|w)\b/u,
  /on ?board charger|bordlader|\bobc (?:dc|ac|hv)|charg(?:e|ing) (?:port|inlet|socket) (?:ac|dc|l)\b|\bccs (?:dc|inlet|plus|minus)|\bdcfc\b|chademo/u,
  /\bdc ?link|zwischenkreis|mellanled|tussenkring|circuit intermediaire|manual service disconnect|\bmsd\b|pilotlinie|antriebs(?:batt|akku|umricht)|lade(?:dose|buchse|anschluss) (?:dc|ac|hv)|pre ?charge (?:relay|contactor|resist|circuit)|vorlade|isolation monitor|isolationsu?e?berw/u,
  // From the mains.
  /shore ?power|mains (?:live|line|voltage|supply|in)\b|netzspannung|landstrom|landanschluss|prise de quai/u,
  // Ignition secondary.
  /spark ?plug (?:lead|wire|cable)|ignition (?:lead|cable)|ignition (?:\p{L}+ )?secondary|secondary ignition|zu?e?nd(?:kabel|kerze|leitung)|tandkabel|bougiekabel|cavo candel|cable de bujia/u,
];

/** Words of ratings: a voltage beside them is what a part stands, not what the line carries. */
const OF_RATING =
  /\b(?:relay|relais|rele|fuse|sicherung|fusible|fusibile|sakring|zekering|bezpiecznik|pojistka|fusivel|contact|switch|schalter|rated|rating|max|capacitor|kondensator|cap|tested|insulation|varistor|breaker|socket adapter)\b/u;

const FIGURE =
  /(?<![A-Za-z\d.,])(?:(AC|DC|VAC|VDC)[ _-]?)?(\d{1,6}(?:[.,]\d+)?)[ _-]?(k?)V(?:[ _-]?(AC|DC|~)|(?![A-Za-z\d]))/giu;
/** Above these a line is high voltage: voltage class B. ISO 6469-3, from memory. */
const MOST_DC_VOLT = 60;
const MOST_AC_VOLT = 30;

/**
 * What the name of a line, part or connector gives away: whether it belongs to an airbag or another part that a squib fires, or to high
 * voltage. It may be written in any way that is found on wire lists: compounds, underscores, digits, camel case, other languages.
 *
 * @param counts Whether a voltage in figures counts: in ids, labels and nets it does, in free notes it does not.
 * @returns The kind and the word that tells it, or undefined: the name tells nothing, which does not make the line harmless.
 * @example
 * ```ts
 * import { readGuardedName } from "ohmward/measurement-safety";
 * expect(readGuardedName("frontAirbagLH", { figures: true })?.kind).toBe("airbag");
 * expect(readGuardedName("350V_DC-", { figures: true })?.kind).toBe("high-voltage");
 * expect(readGuardedName("up to 80 V", { figures: false })).toBeUndefined();
 * expect(readGuardedName("HVAC fan", { figures: true })).toBeUndefined();
 * ```
 *
 * Source: common practice, no source; the limits of voltage class B are those of ISO 6469-3, from memory.
 */
export function readGuardedName(name: string, counts: { readonly figures: boolean }): GuardedName | undefined {
  const plain = plainWords(name);
  const airbag = airbagWord(plain);
  if (airbag !== undefined) return { kind: "airbag", word: airbag };
  const word = firstMatch(HIGH_VOLTAGE, plain) ?? (counts.figures ? highFigure(name, plain) : undefined);
  return word === undefined ? undefined : { kind: "high-voltage", word };
}

function airbagWord(plain: string): string | undefined {
  const word = firstMatch(AIRBAG, plain);
  const isOfTyres =
    word !== undefined && /^(?:inflat|inflador|gonfiatore|インフレ)/u.test(word) && OF_TYRES.test(plain);
  if (word !== undefined && !isOfTyres) return word;
  return MACHINE_BELT.test(plain) ? undefined : BELT_TENSIONER.exec(plain)?.[0];
}

function firstMatch(patterns: readonly RegExp[], text: string): string | undefined {
  for (const pattern of patterns) {
    const word = pattern.exec(text)?.[0];
    if (word !== undefined) return word;
  }
  return undefined;
}

function highFigure(name: string, plain: string): string | undefined {
  if (OF_RATING.test(plain)) return undefined;
  for (const [whole, before = "", figure = "", kilo = "", after = ""] of name.normalize("NFKC").matchAll(FIGURE)) {
    const volt = Number(figure.replace(",", ".")) * (kilo === "" ? 1 : 1000);
    const isAlternating = /AC|~/iu.test(before + after);
    if (volt > (isAlternating ? MOST_AC_VOLT : MOST_DC_VOLT)) return whole;
  }
  return undefined;
}

/** Letters that carry no separate accent but are written without it on many lists. */
const FOLDED: ReadonlyMap<string, string> = new Map([
  ["ł", "l"],
  ["ø", "o"],
  ["đ", "d"],
  ["ı", "i"],
  ["ß", "ss"],
  ["æ", "ae"],
  ["œ", "oe"],
]);

/** A name in small letters without accents, its words apart: split at signs, digits and a change from small to capital letter. */
function plainWords(name: string): string {
  return (
    name
      .normalize("NFKC")
      .replace(/(\p{Ll})(\p{Lu})/gu, "$1 $2")
      .replace(/(\p{Lu})(\p{Lu}\p{Ll})/gu, "$1 $2")
      .toLowerCase()
      // Accents of Latin, Greek and Cyrillic letters; the marks of Japanese syllables are letters of their own.
      .normalize("NFD")
      .replace(/[\u0300-\u036f]/gu, "")
      .normalize("NFC")
      .replace(/[łøđıßæœ]/gu, (letter) => FOLDED.get(letter) ?? letter)
      .replace(/\+/gu, " plus ")
      .replace(/(?<=[\p{L}\d])\s*-\s*$/gu, " minus")
      .replace(/[^\p{L}\p{M}ー]+/gu, " ")
      .trim()
  );
}
