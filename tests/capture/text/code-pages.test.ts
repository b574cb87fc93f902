// Names in code pages other than UTF-8: told by the words they make; the numbers are the same in each.

import { describe, expect, test } from "vitest";
import { codePageOf } from "../../../src/capture/text/code-page.ts";
import { channel, open, remarks, values } from "../open.ts";

/** What is said, the names, and their bytes as Python 3's codecs write them. */
const written: readonly (readonly [said: string, names: string, bytes: string])[] = [
  [
    "Windows-1250",
    "Czas (s);Napięcie sondy przed kat. (V);Napięcie sondy za katalizatorem (V);Prędkość obrotowa silnika (obr/min)",
    "437a6173202873293b4e617069ea63696520736f6e64792070727a6564206b61742e202856293b4e617069ea63696520736f6e6479207a61206b6174616c697a61746f72656d202856293b5072ea646b6f9ce6206f62726f746f77612073696c6e696b6120286f62722f6d696e29",
  ],
  [
    "Windows-1250",
    "Čas (s);Lambda sonda před katalyzátorem (V);Lambda sonda za katalyzátorem (V);Otáčky motoru (1/min)",
    "c86173202873293b4c616d62646120736f6e64612070f86564206b6174616c797ae1746f72656d202856293b4c616d62646120736f6e6461207a61206b6174616c797ae1746f72656d202856293b4f74e1e86b79206d6f746f72752028312f6d696e29",
  ],
  [
    "ISO 8859-2",
    "Czas (s);Napięcie sondy przed kat. (V);Napięcie sondy za katalizatorem (V);Prędkość obrotowa silnika (obr/min)",
    "437a6173202873293b4e617069ea63696520736f6e64792070727a6564206b61742e202856293b4e617069ea63696520736f6e6479207a61206b6174616c697a61746f72656d202856293b5072ea646b6fb6e6206f62726f746f77612073696c6e696b6120286f62722f6d696e29",
  ],
  [
    "Windows-1251",
    "Время (с);Датчик кислорода 1 (В);Датчик кислорода 2 (В);Обороты двигателя (об/мин)",
    "c2f0e5ecff2028f1293bc4e0f2f7e8ea20eae8f1ebeef0eee4e020312028c2293bc4e0f2f7e8ea20eae8f1ebeef0eee4e020322028c2293bcee1eef0eef2fb20e4e2e8e3e0f2e5ebff2028eee12fece8ed29",
  ],
  [
    "KOI8-R",
    "Время (с);Датчик кислорода 1 (В);Датчик кислорода 2 (В);Обороты двигателя (об/мин)",
    "f7d2c5cdd12028d3293be4c1d4dec9cb20cbc9d3cccfd2cfc4c120312028f7293be4c1d4dec9cb20cbc9d3cccfd2cfc4c120322028f7293befc2cfd2cfd4d920c4d7c9c7c1d4c5ccd12028cfc22fcdc9ce29",
  ],
  [
    "code page 866",
    "Время (с);Датчик кислорода 1 (В);Датчик кислорода 2 (В);Обороты двигателя (об/мин)",
    "82e0a5acef2028e1293b84a0e2e7a8aa20aaa8e1abaee0aea4a02031202882293b84a0e2e7a8aa20aaa8e1abaee0aea4a02032202882293b8ea1aee0aee2eb20a4a2a8a3a0e2a5abef2028aea12faca8ad29",
  ],
  [
    "Windows-1253",
    "Χρόνος (s);Αισθητήρας οξυγόνου 1 (V);Αισθητήρας οξυγόνου 2 (V);Στροφές κινητήρα (rpm)",
    "d7f1fcedeff2202873293bc1e9f3e8e7f4def1e1f220efeef5e3fcedeff52031202856293bc1e9f3e8e7f4def1e1f220efeef5e3fcedeff52032202856293bd3f4f1eff6ddf220eae9ede7f4def1e1202872706d29",
  ],
  [
    "Windows-1254",
    "Zaman (s);Ön oksijen sensörü (V);Arka oksijen sensörü (V);Motor devri (rpm);Soğutma suyu sıcaklığı (°C)",
    "5a616d616e202873293bd66e206f6b73696a656e2073656e73f672fc202856293b41726b61206f6b73696a656e2073656e73f672fc202856293b4d6f746f72206465767269202872706d293b536ff075746d6120737579752073fd63616b6cfdf0fd2028b04329",
  ],
  [
    "Shift JIS",
    "時間 (s);酸素センサー1 (V);酸素センサー2 (V);エンジン回転数 (rpm)",
    "8e9e8ad4202873293b8e5f9166835a83938354815b31202856293b8e5f9166835a83938354815b32202856293b834783938357839389f1935d9094202872706d29",
  ],
  [
    "EUC-JP",
    "時間 (s);酸素センサー1 (V);酸素センサー2 (V);エンジン回転数 (rpm)",
    "bbfeb4d6202873293bbbc0c1c7a5bba5f3a5b5a1bc31202856293bbbc0c1c7a5bba5f3a5b5a1bc32202856293ba5a8a5f3a5b8a5f3b2f3c5bebff4202872706d29",
  ],
  [
    "GBK",
    "时间 (s);前氧传感器 (V);后氧传感器 (V);发动机转速 (rpm)",
    "cab1bce4202873293bc7b0d1f5b4abb8d0c6f7202856293bbaf3d1f5b4abb8d0c6f7202856293bb7a2b6afbbfad7aacbd9202872706d29",
  ],
  [
    "Big5",
    "時間 (s);氧感測器1 (V);氧感測器2 (V);引擎轉速 (rpm)",
    "aec9b6a1202873293baef1b750b4fabeb931202856293baef1b750b4fabeb932202856293ba4dec0bac2e0b374202872706d29",
  ],
  [
    "Mac Roman",
    "Zeit (s);Lambdasonde 1 (V);Lambdasonde 2 (V);Drehzahl (1/min);Kühlmitteltemperatur (°C)",
    "5a656974202873293b4c616d626461736f6e64652031202856293b4c616d626461736f6e64652032202856293b447265687a61686c2028312f6d696e293b4b9f686c6d697474656c74656d706572617475722028a14329",
  ],
  [
    "Windows-1252",
    "Zeit (s);Lambdasonde 1 (V);Lambdasonde 2 (V);Drehzahl (1/min);Kühlmitteltemperatur (°C)",
    "5a656974202873293b4c616d626461736f6e64652031202856293b4c616d626461736f6e64652032202856293b447265687a61686c2028312f6d696e293b4bfc686c6d697474656c74656d706572617475722028b04329",
  ],
  [
    "Windows-1252",
    "Temps (s);Sonde amont (V);Sonde aval (V);Régime moteur (tr/min);Température liquide boîte (°C)",
    "54656d7073202873293b536f6e646520616d6f6e74202856293b536f6e6465206176616c202856293b52e967696d65206d6f74657572202874722f6d696e293b54656d70e9726174757265206c69717569646520626fee74652028b04329",
  ],
];

const rows = Array.from({ length: 40 }, (_, i) => `${i / 10};0,${300 + 11 * i};0,7${i % 10};${1000 + i}`);
const fileOf = (hex: string, names: string): Uint8Array => {
  const more = names.split(";").length > 4 ? ";88" : "";
  const body = new TextEncoder().encode(`\n${rows.map((row) => row + more).join("\n")}\n`);
  return Uint8Array.from([...Buffer.from(hex, "hex"), ...body]);
};

describe("names that are no UTF-8 are read as", () => {
  test.each(written)("%s: %s", async (said, names, bytes) => {
    const capture = await open(fileOf(bytes, names));
    const bare = names.split(";").map((name) => name.replace(/ \([^)]*\)$/, ""));
    expect(capture.channels.map(({ name }) => name)).toEqual(bare.slice(1));
    expect(remarks(capture)).toContain(`not valid UTF-8; read as ${said}`);
    expect(capture.channels.slice(0, 3).map(({ role }) => role)).toEqual(["front-o2", "rear-o2", "engine-speed"]);
    expect(values(channel(capture, "front-o2"))).toEqual(rows.map((_, i) => Number(`0.${300 + 11 * i}`)));
    expect(values(channel(capture, "engine-speed"))).toEqual(rows.map((_, i) => 1000 + i));
  });
});

test("bytes in which a digit would be half of a letter are not read so", () => {
  // GB 18030, four bytes: 0x81 0x30 0x81 0x30 is U+0080; behind the name of a sensor in the same page.
  const name = Buffer.from("c7b0d1f5b4abb8d0c6f7", "hex");
  const bytes = Uint8Array.from([
    ...name,
    ..."\n0,1;".split("").map((sign) => sign.charCodeAt(0)),
    0x81,
    0x30,
    0x81,
    0x30,
  ]);
  expect(codePageOf(name)).toBe("gbk");
  expect(codePageOf(bytes)).not.toBe("gbk");
});

test("a text in which no word is known stays what it was read as before", () => {
  expect(codePageOf(Uint8Array.from([0x47, 0x72, 0xf6, 0xdf, 0x65]))).toBe("windows-1252"); // Größe
});
