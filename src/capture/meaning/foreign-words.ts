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

/** Scripts of their own. In Chinese and Japanese no blank parts the words, in Korean not always. */
const others: readonly Pair[] = [
  // Letters that look like Latin ones, beside figures: "О2 В1S2".
  ["o2", "(?<!\\p{L})[оο]2"],
  ["b", "(?<!\\p{L})[вβ](?=\\d\\s?[sс]\\d)"],
  ["s", "(?<=b\\s+\\d\\s?)с(?=\\d)"],
  ["time", "время (?<!\\p{L})час(?!\\p{L}) χρον\\p{L}* 时间 時間 시간"],
  ["front oxygen sensor", "前氧传感器 前氧"],
  ["rear oxygen sensor", "后氧传感器 後氧 后氧"],
  ["oxygen sensor", "氧传感器 氧感測器 氧傳感器 酸素センサー? 산소\\s?센서 (?<!\\p{L})u?дк(?!\\p{L})"],
  ["oxygen", "кислород\\p{L}* кисн\\p{L}* οξυγον\\p{L}* 산소"],
  ["lambda", "лямбда"],
  ["heater", "нагрев\\p{L}* подогрев\\p{L}* підігр\\p{L}* 加热 加熱 ヒーター? 히터"],
  ["camera", "камер\\p{L}* カメラ 摄像头 카메라"],
  ["desired", "задан\\p{L}* 目标 目標 목표"],
  [
    "sensor",
    "(?<=(?<!\\p{L})б\\s?\\d\\s?)д(?=\\s?\\d) датчик\\p{L}* сенсор\\p{L}* зонд\\p{L}* αισθητηρ\\p{L}* センサー? 传感器 센서",
  ],
  ["voltage", "напряж\\p{L}* напруг\\p{L}* 电压 電圧 電壓 전압"],
  ["bank", "(?<!\\p{L})б(?=\\s?\\d) банк\\p{L}* τραπεζ\\p{L}* バンク 气?缸组 组(?=\\s?\\d) 뱅크"],
  ["before", "(?<!\\p{L})до(?!\\p{L}) преди перед\\p{L}* передн\\p{L}* (?<!\\p{L})πριν 上游 上流 전방 상류"],
  [
    "after",
    "после (?<!\\p{L})за(?=.кат) (?<!\\p{L})след(?!\\p{L}) післ\\p{L}* задн\\p{L}* (?<!\\p{L})μετα(?!\\p{L}) 下游 下流 후방 하류",
  ],
  ["engine speed", "発動機回転数 エンジン回転数 エンジン回転速度 发动机转速 引擎轉速 частота.вращения 엔진\\s?회전수"],
  ["rpm", "оборот\\p{L}* оберт\\p{L}* στροφ\\p{L}* 회전수"],
  ["throttle", "дросс?ел\\p{L}* (?<!\\p{L})дпдз(?!\\p{L}) πεταλουδ\\p{L}* スロットル 节气门 節氣門 스로틀"],
  ["vehicle speed", "车速 車速 скорост\\p{L}* швидк\\p{L}* ταχυτητ\\p{L}* 차속 차량\\s?속도"],
  [
    "coolant temp",
    "冷却液温度 冷却水温 水温 температур\\p{L}*.охл\\p{L}* температур\\p{L}*.охол\\p{L}* (?<!\\p{L})д?тож(?!\\p{L}) 냉각수\\s?온도",
  ],
  [
    "air flow",
    "空气流量 空氣流量 吸入空気量 расход\\p{L}*.воздух\\p{L}* витрат\\p{L}*.повітр\\p{L}* (?<!\\p{L})дмрв(?!\\p{L}) 흡입\\s?공기량 공기\\s?유량",
  ],
  ["engine", "двигател\\p{L}* двигун\\p{L}* κινητηρ\\p{L}* 엔진"],
  ["fuel", "топлив\\p{L}* палив\\p{L}* 연료"],
  ["load", "нагрузк\\p{L}* навантаж\\p{L}* 負荷 负荷 부하"],
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
