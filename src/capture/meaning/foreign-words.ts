// Words of the trade in languages whose letters or stems the rules for names do not know, put into English ones. From memory.

type Pair = readonly [english: string, stems: string];

/** Stems as they stand in lower case without accents; a blank parts one from the next. */
const latin: readonly Pair[] = [
  ["before", "pred(?=.kat) elott inainte fore(?=.katal) for(?=.katal) foer(?=.katal) on(?=.oksijen)"],
  ["time", "tid zaman aika ido timp"],
  ["oxygen sensor", "happianturi\\w* syresensor\\w* syresond\\w* iltsensor\\w* oksygensensor\\w* oxigenszenzor\\w*"],
  ["lambda sensor", "lambdasond lambdasonder lambdaszond\\w* lambdasondi"],
  ["oxygen", "oksijen kyslik\\w* oxigen"],
  ["sensor", "sensoru snimac\\w* anturi"],
  ["after", "efter etter utan dupa arka"],
  ["rpm", "otack\\w* otacok varvtal\\w* omdrejning\\w* turtall\\w* devri devir kierrosluku fordulatszam\\w* turatie"],
  ["throttle", "skrtic\\w* skrtiac\\w* gasspj\\p{L}* kelebeg\\w* kaasulapp\\w* fojtoszelep\\w* clapeta"],
  ["speed", "rychlost\\w* hastighe\\w* nopeus sebesseg viteza"],
  [
    "coolant",
    "chladic\\w* kylvatten\\w* kylvatsk\\w* kjole\\w* kolev\\w* jaahdytys\\w* hutofolyadek\\w* hutoviz\\w* sogutma.(?:suyu|sivisi)",
  ],
  ["temp", "teplot\\w* lampotila\\w* homerseklet\\w* sicakli[kg]\\w*"],
];

/** Scripts of their own. In Chinese and Japanese no blank parts the words. */
const others: readonly Pair[] = [
  ["time", "время (?<!\\p{L})час(?!\\p{L}) χρον\\p{L}* 时间 時間"],
  ["front oxygen sensor", "前氧传感器 前氧"],
  ["rear oxygen sensor", "后氧传感器 後氧 后氧"],
  ["oxygen sensor", "氧传感器 氧感測器 氧傳感器 酸素センサー?"],
  ["oxygen", "кислород\\p{L}* кисн\\p{L}* οξυγον\\p{L}*"],
  ["lambda", "лямбда"],
  ["heater", "нагрев\\p{L}* подогрев\\p{L}* підігр\\p{L}* 加热 加熱 ヒーター?"],
  ["desired", "задан\\p{L}* 目标 目標"],
  ["sensor", "датчик\\p{L}* зонд\\p{L}* αισθητηρ\\p{L}* センサー? 传感器"],
  ["voltage", "напряж\\p{L}* напруг\\p{L}* 电压 電圧 電壓"],
  ["bank", "банк\\p{L}* バンク"],
  ["before", "(?<!\\p{L})до(?!\\p{L}) перед\\p{L}* передн\\p{L}* (?<!\\p{L})πριν 上游 上流"],
  ["after", "после (?<!\\p{L})за(?!\\p{L}) післ\\p{L}* задн\\p{L}* (?<!\\p{L})μετα(?!\\p{L}) 下游 下流"],
  ["engine speed", "発動機回転数 エンジン回転数 エンジン回転速度 发动机转速 引擎轉速 частота.вращения"],
  ["rpm", "оборот\\p{L}* оберт\\p{L}* στροφ\\p{L}*"],
  ["throttle", "дросс?ел\\p{L}* πεταλουδ\\p{L}* スロットル 节气门 節氣門"],
  ["vehicle speed", "车速 車速 скорост\\p{L}* швидк\\p{L}* ταχυτητ\\p{L}*"],
  ["coolant temp", "冷却液温度 冷却水温 水温 температур\\p{L}*.охл\\p{L}* температур\\p{L}*.охол\\p{L}*"],
  ["air flow", "空气流量 空氣流量 吸入空気量 расход\\p{L}*.воздух\\p{L}* витрат\\p{L}*.повітр\\p{L}*"],
  ["engine", "двигател\\p{L}* двигун\\p{L}* κινητηρ\\p{L}*"],
  ["fuel", "топлив\\p{L}* палив\\p{L}*"],
  ["load", "нагрузк\\p{L}* навантаж\\p{L}* 負荷 负荷"],
];

/** As names are compared: accents off. */
const bare = (stems: string) => stems.normalize("NFKD").replace(/[\u0300-\u036f]/g, "");
const shapeOf = (stems: string) => new RegExp(bare(stems).split(" ").join("|"), "gu");
/** Alone, or at least at its beginning and end, as short stems stand in words of other languages too. */
const alone = (stems: string) => stems.replace(/\S+/g, "(?<![\\p{L}\\d])(?:$&)(?!\\p{L})");
const rowsOf = (pairs: readonly Pair[], shape: (stems: string) => string) =>
  pairs.map(([english, stems]) => [` ${english} `, shapeOf(shape(stems))] as const);
const inLatin = rowsOf(latin, alone);
const inAny = [...inLatin, ...rowsOf(others, (stems) => stems)];
const hasOther = /[^\p{Script=Latin}\p{Script=Common}\p{Script=Inherited}]/u;

/** @param name  in lower case, without accents. */
export function inEnglish(name: string): string {
  const rows = hasOther.test(name) ? inAny : inLatin;
  return rows.reduce((text, [english, stems]) => text.replace(stems, english), name);
}
