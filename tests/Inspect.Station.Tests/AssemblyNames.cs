using System.Collections.Immutable;
using System.Reflection.Emit;
using System.Reflection.Metadata;
using System.Reflection.Metadata.Ecma335;
using System.Reflection.PortableExecutable;

namespace Inspect.Station.Tests;

/// <summary>Which namespaces of an assembly use which: by base type, interface, attribute, signature, and whatever
/// a method's instructions name.</summary>
internal sealed class AssemblyNames(PEReader file) : ISignatureTypeProvider<ImmutableHashSet<string>, object?>
{
    private static readonly ImmutableHashSet<string> None = [];
    private static readonly Dictionary<int, OpCode> Instructions = typeof(OpCodes).GetFields()
        .Select(field => (OpCode)field.GetValue(null)!).ToDictionary(code => code.Value & 0xFFFF);

    private readonly MetadataReader _reader = file.GetMetadataReader();

    /// <summary>Every use of one namespace by another, with repetitions.</summary>
    public IEnumerable<(string From, string To)> Uses() =>
        from handle in _reader.TypeDefinitions
        let home = HomeOf(handle)
        from used in UsedBy(_reader.GetTypeDefinition(handle))
        select (home, used);

    private IEnumerable<string> UsedBy(TypeDefinition type)
    {
        var handles = new List<EntityHandle> { type.BaseType };
        handles.AddRange(type.GetInterfaceImplementations().Select(each => _reader.GetInterfaceImplementation(each).Interface));
        handles.AddRange(Attributes(type.GetCustomAttributes()));
        handles.AddRange(Constraints(type.GetGenericParameters()));
        handles.AddRange(type.GetProperties().SelectMany(each => Attributes(_reader.GetPropertyDefinition(each).GetCustomAttributes())));
        handles.AddRange(
            type.GetFields().SelectMany(each => Attributes(_reader.GetFieldDefinition(each).GetCustomAttributes()).Append(each)));
        foreach (var each in type.GetMethods())
        {
            var method = _reader.GetMethodDefinition(each);
            handles.Add(each);
            handles.AddRange(Attributes(method.GetCustomAttributes()));
            handles.AddRange(Constraints(method.GetGenericParameters()));
            handles.AddRange(
                method.GetParameters().SelectMany(parameter => Attributes(_reader.GetParameter(parameter).GetCustomAttributes())));
            if (method.RelativeVirtualAddress != 0)
            {
                handles.AddRange(InBody(file.GetMethodBody(method.RelativeVirtualAddress)));
            }
        }

        return handles.SelectMany(NamesIn);
    }

    private IEnumerable<EntityHandle> Attributes(CustomAttributeHandleCollection attributes) =>
        attributes.Select(each => _reader.GetCustomAttribute(each).Constructor);

    private IEnumerable<EntityHandle> Constraints(GenericParameterHandleCollection parameters) =>
        from parameter in parameters
        from constraint in _reader.GetGenericParameter(parameter).GetConstraints()
        select _reader.GetGenericParameterConstraint(constraint).Type;

    private static IEnumerable<EntityHandle> InBody(MethodBodyBlock body)
    {
        if (!body.LocalSignature.IsNil)
        {
            yield return body.LocalSignature;
        }

        foreach (var region in body.ExceptionRegions.Where(region => region.Kind == ExceptionRegionKind.Catch))
        {
            yield return region.CatchType;
        }

        var il = body.GetILContent();
        for (var i = 0; i < il.Length;)
        {
            var code = Instructions[il[i] == 0xFE ? (0xFE << 8) | il[i + 1] : il[i]];
            i += code.Size;
            if (code.OperandType is OperandType.InlineField or OperandType.InlineMethod
                or OperandType.InlineTok or OperandType.InlineType)
            {
                yield return (EntityHandle)MetadataTokens.Handle(BitConverter.ToInt32(il.AsSpan(i, 4)));
            }

            i += code.OperandType switch
            {
                OperandType.InlineNone => 0,
                OperandType.ShortInlineBrTarget or OperandType.ShortInlineI
                    or OperandType.ShortInlineVar => 1,
                OperandType.InlineVar => 2,
                OperandType.InlineI8 or OperandType.InlineR => 8,
                OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(il.AsSpan(i, 4))),
                _ => 4,
            };
        }
    }

    private ImmutableHashSet<string> NamesIn(EntityHandle handle)
    {
        if (handle.IsNil)
        {
            return None;
        }

        switch (handle.Kind)
        {
            case HandleKind.TypeDefinition:
                return [HomeOf((TypeDefinitionHandle)handle)];
            case HandleKind.TypeSpecification:
                return _reader.GetTypeSpecification((TypeSpecificationHandle)handle).DecodeSignature(this, null);
            case HandleKind.FieldDefinition:
                var field = _reader.GetFieldDefinition((FieldDefinitionHandle)handle);
                return field.DecodeSignature(this, null).Add(HomeOf(field.GetDeclaringType()));
            case HandleKind.MethodDefinition:
                var method = _reader.GetMethodDefinition((MethodDefinitionHandle)handle);
                return All(method.DecodeSignature(this, null)).Add(HomeOf(method.GetDeclaringType()));
            case HandleKind.MemberReference:
                var member = _reader.GetMemberReference((MemberReferenceHandle)handle);
                var signature = member.GetKind() == MemberReferenceKind.Field
                    ? member.DecodeFieldSignature(this, null)
                    : All(member.DecodeMethodSignature(this, null));
                return signature.Union(NamesIn(member.Parent));
            case HandleKind.MethodSpecification:
                var specification = _reader.GetMethodSpecification((MethodSpecificationHandle)handle);
                return NamesIn(specification.Method).Union(specification.DecodeSignature(this, null).SelectMany(each => each));
            case HandleKind.StandaloneSignature:
                var local = _reader.GetStandaloneSignature((StandaloneSignatureHandle)handle);
                return local.GetKind() == StandaloneSignatureKind.LocalVariables
                    ? [.. local.DecodeLocalSignature(this, null).SelectMany(each => each)]
                    : None;
            default:
                return None;
        }
    }

    // A nested type is at home where the outermost is.
    private string HomeOf(TypeDefinitionHandle handle)
    {
        var type = _reader.GetTypeDefinition(handle);
        return type.GetDeclaringType() is { IsNil: false } outer ? HomeOf(outer) : _reader.GetString(type.Namespace);
    }

    private static ImmutableHashSet<string> All(MethodSignature<ImmutableHashSet<string>> signature) =>
        signature.ReturnType.Union(signature.ParameterTypes.SelectMany(each => each));

    public ImmutableHashSet<string> GetTypeFromDefinition(MetadataReader reader, TypeDefinitionHandle handle, byte rawTypeKind) =>
        [HomeOf(handle)];

    public ImmutableHashSet<string> GetTypeFromReference(MetadataReader reader, TypeReferenceHandle handle, byte rawTypeKind) => None;

    public ImmutableHashSet<string> GetTypeFromSpecification(
        MetadataReader reader, object? context, TypeSpecificationHandle handle, byte rawTypeKind) =>
        reader.GetTypeSpecification(handle).DecodeSignature(this, context);

    public ImmutableHashSet<string> GetGenericInstantiation(
        ImmutableHashSet<string> type, ImmutableArray<ImmutableHashSet<string>> arguments) =>
        type.Union(arguments.SelectMany(each => each));

    public ImmutableHashSet<string> GetModifiedType(ImmutableHashSet<string> modifier, ImmutableHashSet<string> type, bool isRequired) =>
        modifier.Union(type);

    public ImmutableHashSet<string> GetFunctionPointerType(MethodSignature<ImmutableHashSet<string>> signature) => All(signature);

    public ImmutableHashSet<string> GetArrayType(ImmutableHashSet<string> element, ArrayShape shape) => element;

    public ImmutableHashSet<string> GetSZArrayType(ImmutableHashSet<string> element) => element;

    public ImmutableHashSet<string> GetByReferenceType(ImmutableHashSet<string> element) => element;

    public ImmutableHashSet<string> GetPointerType(ImmutableHashSet<string> element) => element;

    public ImmutableHashSet<string> GetPinnedType(ImmutableHashSet<string> element) => element;

    public ImmutableHashSet<string> GetPrimitiveType(PrimitiveTypeCode code) => None;

    public ImmutableHashSet<string> GetGenericTypeParameter(object? context, int index) => None;

    public ImmutableHashSet<string> GetGenericMethodParameter(object? context, int index) => None;
}
