namespace Inspect.Station.Storage;

/// <summary>The store cannot do what was asked. The message says what is wrong and what to do, in a sentence or two for people; a request
/// is answered with it and 503.</summary>
public class StoreFaultException(string message) : Exception(message);

/// <summary>An entry of the register whose bytes are not those that were recorded. Nothing of it is shown or judged.</summary>
public sealed class DamagedEntryException(long seq) : StoreFaultException(
    FormattableString.Invariant($"Entry {seq} of the register is damaged: its bytes are not those that were recorded, so nothing of it is ")
    + "shown. Tell the person who runs the station: the store must be restored from a backup.")
{
    /// <summary>The number of the entry.</summary>
    public long Seq => seq;
}
